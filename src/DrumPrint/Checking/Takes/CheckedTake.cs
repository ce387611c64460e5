using DrumPrint.Audio;
using DrumPrint.Chains;

namespace DrumPrint.Checking.Takes;

/// <summary>One file under check.</summary>
/// <param name="Name">As the chain calls it; the file's name without a chain.</param>
/// <param name="Path">Where it lies.</param>
/// <param name="Kind">What it is for.</param>
internal sealed record CheckedTake(string Name, string Path, TakeKind Kind)
{
    /// <summary>What its header says; null for a file that cannot be read.</summary>
    public AudioFileInfo? Info { get; init; }

    /// <summary>What its samples say; null for a file that cannot be read to its end.</summary>
    public TakeFigures? Figures { get; init; }

    /// <summary>Why it cannot be read, in a sentence; null for one that can.</summary>
    public string? Problem { get; init; }

    /// <summary>Whether it is not there at all.</summary>
    public bool IsMissing { get; init; }

    /// <summary>Whether it lies where the chain may not name files.</summary>
    public bool IsBarred { get; init; }

    /// <summary>The chain's words for a raw recording or the song's own mix.</summary>
    public Track? Track { get; init; }

    /// <summary>The files of a recording that was punched in; null for one file.</summary>
    public Splice? Splice { get; init; }

    /// <summary>What tells its recording from every other.</summary>
    public string Recording => Splice?.Key ?? Path;

    /// <summary>The one channel of the file it is, from 0; null for all of the file.</summary>
    public int? Channel { get; init; }

    /// <summary>Channels it has.</summary>
    public int Channels => Channel is null ? Info?.Channels ?? 0 : 1;

    /// <summary>Frames at the start of the file that are passed over, for the latency the chain gives.</summary>
    public long SkippedFrames => Track?.SkippedFrames(Info?.SampleRate ?? 0) ?? 0;

    /// <summary>The chain's words for a print.</summary>
    public Print? Print { get; init; }

    /// <summary>Number it is delivered under; 0 without.</summary>
    public int Number { get; init; }

    public TakeRole Role { get; init; }

    public string FileName => System.IO.Path.GetFileName(Path);

    /// <summary>The file, and the channel of it.</summary>
    public string Place => Channel is { } one ? FormattableString.Invariant($"channel {one + 1} of {FileName}") : FileName;

    public bool IsRaw => Kind == TakeKind.Raw;

    /// <summary>Opens its recording.</summary>
    /// <param name="hashes">What is hashed as it is read.</param>
    /// <exception cref="AudioFileException">It cannot be read.</exception>
    public AudioReader Open(AudioHashes hashes) => Splice?.Open(hashes) ?? AudioReader.Open(Path, hashes);

    /// <summary>Opens its recording to be read in any order.</summary>
    /// <exception cref="AudioFileException">It cannot be read.</exception>
    public ISampleWindows OpenWindows() => Splice is null ? SampleWindows.Open(Path) : new SplicedWindows(Splice);

    /// <summary>Whether it is delivered: a print, an extra, a rough or the click.</summary>
    public bool IsDelivered => Kind is not (TakeKind.Raw or TakeKind.Impulse or TakeKind.Reference);

    /// <summary>Whether it is a close microphone of one drum.</summary>
    public bool IsClose => IsRaw && Role is TakeRole.Kick or TakeRole.Snare or TakeRole.SnareUnder or TakeRole.Hat or TakeRole.Tom or TakeRole.TomUnder;
}
