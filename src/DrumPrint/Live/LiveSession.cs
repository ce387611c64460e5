using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Files;
using DrumPrint.Seeking;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Live;

/// <summary>A chain with its files, ready to be heard; what the one before it had open is taken over where it is the same.</summary>
internal sealed class LiveSession
{
    private readonly IReadOnlyDictionary<string, string> _marks;
    private readonly SoundKeys _keys;

    private LiveSession(Chain chain, SessionInputs inputs, Recordings recordings, DesignMemory designs, IReadOnlyDictionary<string, string> marks)
    {
        (Chain, Inputs, Recordings, Designs, _marks) = (chain, inputs, recordings, designs, marks);
        _keys = new SoundKeys(chain, inputs, chain.Tracks.ToDictionary(t => t.Name, t => string.Join(' ', t.Files.Select(f => marks[f])), StringComparer.Ordinal));
    }

    public Chain Chain { get; }

    public SessionInputs Inputs { get; }

    public Recordings Recordings { get; }

    /// <summary>Filters and the like of the processors, for as long as the bench runs.</summary>
    public DesignMemory Designs { get; }

    /// <summary>Names a track or bus by all that makes its sound.</summary>
    public string KeyOf(string source)
    {
        lock (_keys)
        {
            return _keys.Of(source);
        }
    }

    /// <summary>Opens what a chain names.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <param name="earlier">What was open before; null at the start.</param>
    /// <exception cref="InputException">Files are missing or do not fit.</exception>
    /// <exception cref="ChainException">A goal cannot be met.</exception>
    public static LiveSession Of(Chain chain, ReadPolicy reading, LiveSession? earlier)
    {
        // A number that a goal was given stands until the goal itself is changed: the hand must not wait for it at every step.
        chain = earlier is null ? chain : FoundNumbers.From(chain, earlier.Chain);
        var marks = chain.Tracks.SelectMany(t => t.Files).Concat(chain.Impulses.Select(i => i.File)).Distinct(StringComparer.Ordinal).ToDictionary(f => f, f => Mark(Path.Combine(chain.Folder, f)), StringComparer.Ordinal);
        if (earlier is not null && IsSameFiles(chain, earlier.Chain) && HoldsWhatIsPlayed(earlier.Inputs, chain) && marks.All(m => earlier._marks.GetValueOrDefault(m.Key) == m.Value))
        {
            return new LiveSession(Found(chain, earlier.Inputs), earlier.Inputs, earlier.Recordings, earlier.Designs, marks);
        }

        var inputs = SessionInputs.Open(chain, reading);
        return new LiveSession(Found(chain, inputs), inputs, new Recordings(), earlier?.Designs ?? new SharedDesigns(), marks);
    }

    private static Chain Found(Chain chain, SessionInputs inputs) => Seeker.IsNeeded(chain)
        ? new Seeker(inputs, memory: null, Environment.ProcessorCount, static _ => { }, CancellationToken.None).Run(chain).Chain
        : chain;

    private static bool IsSameFiles(Chain a, Chain b) =>
        a.Path == b.Path
        && a.Song.RateHz == b.Song.RateHz
        && a.Tracks.Select(t => (t.Name, t.File, t.Punched, t.Convert, t.LatencyMs, t.Channel)).SequenceEqual(b.Tracks.Select(t => (t.Name, t.File, t.Punched, t.Convert, t.LatencyMs, t.Channel)))
        && a.Impulses.Select(i => i with { Line = 0 }).SequenceEqual(b.Impulses.Select(i => i with { Line = 0 }));

    // Of a long file only what was played before is in memory.
    private static bool HoldsWhatIsPlayed(SessionInputs inputs, Chain chain) =>
        inputs.ImpulseFiles.All(f => f.Stretch is null || f.Stretch == SoundStretch.Of(chain, f.File.Name));

    // What tells that a file is another one, without reading it.
    private static string Mark(string path)
    {
        var file = new FileInfo(path);
        return file.Exists ? FormattableString.Invariant($"{path}|{file.Length}|{file.LastWriteTimeUtc.Ticks}") : path;
    }
}
