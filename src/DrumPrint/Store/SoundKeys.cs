using System.Text;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Writing;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Session;

namespace DrumPrint.Store;

/// <summary>Names every signal of a session by a hash of all that makes its sound.</summary>
/// <remarks>
/// A key is a SHA-256 over the engine's build and the canonical text of one bus. In that text each name gives way to the key
/// of what it stands for. Each delay and ride gives way to its frames. Other names, comments, units or an unrelated bus
/// change no key; anything that could change a bit of the signal does.
/// </remarks>
/// <param name="chain">The chain.</param>
/// <param name="inputs">Its files.</param>
/// <param name="trackHashes">Hash of the samples of each raw track, by name.</param>
internal sealed class SoundKeys(Chain chain, SessionInputs inputs, IReadOnlyDictionary<string, string> trackHashes)
{
    private readonly Dictionary<string, Track> _tracks = chain.Tracks.ToDictionary(t => t.Name, StringComparer.Ordinal);
    private readonly Dictionary<string, Bus> _buses = chain.Buses.ToDictionary(b => b.Name, StringComparer.Ordinal);
    private readonly Dictionary<string, string> _made = new(StringComparer.Ordinal);

    /// <summary>The key of a track or bus.</summary>
    public string Of(string source)
    {
        if (!_made.TryGetValue(source, out var key))
        {
            key = _tracks.TryGetValue(source, out var track) ? Of(track) : Of(_buses[source]);
            _made.Add(source, key);
        }

        return key;
    }

    /// <summary>The key of the rough: the sum of the playing prints before the drum bus.</summary>
    /// <param name="trimDb">Common trim of all prints.</param>
    public string Rough(double trimDb)
    {
        var feeds = chain.Prints.Where(p => !p.IsOptional).Select(p => new Feed($"{Of(p.Bus)} {p.Number}", p.LevelDb, null, false, Chains.PathDelay.None, [], 0));
        return Hash(Bare with { Buses = [new Bus("rough", [.. feeds], [], 2, 0)] }, FormattableString.Invariant($"trim {trimDb:R}"));
    }

    /// <summary>The key of a number that is found for the last processor of a bus.</summary>
    /// <param name="bus">The bus.</param>
    /// <param name="parameter">Key of the number.</param>
    /// <param name="frames">Frames of the song that are listened to.</param>
    public string OfNumber(string bus, string parameter, long frames) => CanonicalHash.Of(FormattableString.Invariant($"{Of(bus)}\n{parameter} {frames}"));

    private string Of(Track track)
    {
        var (input, info) = (inputs.Tracks[track.Name], inputs.Tracks[track.Name].Info);
        var bare = track with
        {
            Name = "",
            File = trackHashes[track.Name],
            Punched = PunchedFiles.None,
            At = null,
            Notes = null,
            Channel = input.Channel is { } channel ? new TrackChannel(channel + 1, null) : null,
            Delay = Frames(track.Wait(chain.Song.RateHz, chain.Song.TemperatureC)),

            // In frames, as all times are here.
            LatencyMs = track.SkippedFrames(chain.Song.RateHz),
        };
        return Hash(Bare with { Tracks = [bare] }, input.Splice is null ? Form(info) : $"{Form(info)} {input.Splice.Places}");
    }

    private string Of(Bus bus)
    {
        var bare = bus.Heard() with
        {
            Name = "",
            Feeds = [.. bus.Feeds.Select(f => f with { Source = Of(f.Source), Delay = Frames(f.Delay), Rides = [.. f.Rides.Select(Frames)] })],
            Stages = [.. bus.Stages.Select(s => s.Key is null ? s : s with { Key = Of(s.Key) })],
        };
        var impulses = bus.Stages
            .SelectMany(s => s.Definition.Parameters.OfType<ImpulseParameter>().Select(p => s.Settings[p]))
            .Distinct()
            .Select(name => inputs.ImpulseFiles.First(i => i.File.Name == name))
            .Select(i => $"{i.File.Name}\n{i.AudioSha256} {inputs.Impulses[i.File.Name].Layout} {Form(i.Info)}");
        return Hash(Bare with { Buses = [bare] }, string.Join('\n', impulses));
    }

    private static string Form(AudioFileInfo info) => FormattableString.Invariant($"{info.SampleRate} {info.Channels} {info.Frames} {info.Encoding} {info.ValidBits}");

    // What the whole session shares, without names.
    private Chain Bare => new("", new Song("", "", 0, chain.Song.RateHz, null, chain.Song.PanLawDb, 0), [], [], [], [], [], new OutputSettings());

    private PathDelay Frames(PathDelay delay)
    {
        var (whole, part) = delay.Parts(chain.Song.RateHz, chain.Song.TemperatureC);
        return new PathDelay(whole + part, Unit.Frames, part > 0);
    }

    private Ride Frames(Ride ride)
    {
        var (from, to, fade) = RideFrames.Of(ride, chain.Song);
        return ride with { From = from, To = to, InBars = false, FadeMs = fade };
    }

    private static string Hash(Chain text, string rest) => CanonicalHash.Of(new StringBuilder(SoundVersion.Text).Append('\n').Append(ChainWriter.Canonical(text)).Append('\n').Append(rest).ToString());
}
