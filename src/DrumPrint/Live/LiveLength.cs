using DrumPrint.Session;

namespace DrumPrint.Live;

/// <summary>How long a session is, before anything of it is rendered.</summary>
internal sealed class LiveLength(LiveSession session)
{
    private readonly int _rate = session.Chain.Song.RateHz;

    /// <summary>Song frame at which the last raw track ends, delays included.</summary>
    public long RawEnd => session.Chain.Tracks
        .Select(t => session.Inputs.Tracks[t.Name].Frames + t.Wait(_rate, session.Chain.Song.TemperatureC).ToFrames(_rate, session.Chain.Song.TemperatureC))
        .DefaultIfEmpty()
        .Max();

    /// <summary>Song frame at which a render ends at the latest: a whole second.</summary>
    public long Cap => WholeSeconds.Up(RawEnd + (long)Math.Round((session.Chain.Output.TailS ?? session.Chain.Output.TailCapS) * _rate), _rate);
}
