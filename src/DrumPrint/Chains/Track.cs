using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains;

/// <summary>One raw recording and how it is brought in wherever it is used.</summary>
/// <param name="Name">The word the chain uses.</param>
/// <param name="File">Path relative to the chain file.</param>
/// <param name="LevelDb">Level.</param>
/// <param name="IsInverted">Whether polarity is turned over.</param>
/// <param name="Delay">Delay.</param>
/// <param name="Convert">Whether another sample rate is resampled instead of refused.</param>
/// <param name="Line">Line in the chain file, from 1.</param>
public sealed record Track(string Name, string File, double LevelDb, bool IsInverted, PathDelay Delay, bool Convert, int Line)
{
    /// <summary>All files of a recording that was punched in, each laid where its time stamp says; <see cref="File"/> is the first of them. None
    /// for a track of one file.</summary>
    public PunchedFiles Punched { get; init; } = PunchedFiles.None;

    /// <summary>Every file of the track, in the chain's order.</summary>
    public IReadOnlyList<string> Files => Punched.Any ? Punched.Files : [File];

    /// <summary>The file as people are told of it.</summary>
    public string FileWords => Punched.Any ? FormattableString.Invariant($"{File} and {Punched.Files.Count - 1} more") : File;

    /// <summary>The one channel of the file that is used; null for all of it.</summary>
    public TrackChannel? Channel { get; init; }

    /// <summary>How late the recording came back from outside gear, in ms, 0 or more. It is taken out before the delay.</summary>
    public double LatencyMs { get; init; }

    /// <summary>Frames at the start that are passed over to take the latency out: to the next whole frame.</summary>
    /// <param name="rateHz">Sample rate of the session.</param>
    public long SkippedFrames(int rateHz) => (long)Math.Ceiling(LatencyFrames(rateHz) - SameFrame);

    /// <summary>The delay that is left once these frames are passed over: the track's own, and what was passed over too much.</summary>
    /// <param name="rateHz">Sample rate of the session.</param>
    /// <param name="temperatureC">Air temperature, for a delay in metres.</param>
    public PathDelay Wait(int rateHz, double temperatureC) => LatencyMs == 0
        ? Delay
        : new PathDelay(Math.Max(0, Delay.Frames(rateHz, temperatureC) + SkippedFrames(rateHz) - LatencyFrames(rateHz)), Unit.Frames, Delay.IsExact);

    // Nearer to a whole frame than this is rounding.
    private const double SameFrame = 1e-9;

    private double LatencyFrames(int rateHz) => LatencyMs / 1000 * rateHz;

    /// <summary>Where the microphone stood; null when the chain does not say.</summary>
    public MicrophonePlace? At { get; init; }

    /// <summary>The microphone and where it stood; null when the chain says nothing.</summary>
    public string? Notes { get; init; }
}
