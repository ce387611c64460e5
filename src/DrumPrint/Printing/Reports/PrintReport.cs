using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Rendering;
using DrumPrint.Session;

namespace DrumPrint.Printing.Reports;

/// <summary>What a run of printing made.</summary>
/// <param name="Chain">The chain printed.</param>
/// <param name="OutFolder">Where the files are.</param>
/// <param name="Encoding">Word length.</param>
/// <param name="StartFrame">Song time of the first frame of every file.</param>
/// <param name="Frames">Length of every file.</param>
/// <param name="TrimDb">Common trim of all prints; 0 when none was needed.</param>
/// <param name="Prints">Every file, by number.</param>
/// <param name="NullPeakDbfs">Largest difference between the sum of the playing prints and the rough, as written; null when
/// not all of them were written.</param>
/// <param name="Notes">What was done beyond the chain's levels and processors, in sentences.</param>
/// <param name="Findings">What a user should look at, in sentences.</param>
public sealed record PrintReport(
    Chain Chain,
    string OutFolder,
    SampleEncoding Encoding,
    long StartFrame,
    long Frames,
    double TrimDb,
    IReadOnlyList<PrintedFile> Prints,
    double? NullPeakDbfs,
    IReadOnlyList<string> Notes,
    IReadOnlyList<string> Findings)
{
    /// <summary>Whether no more is left of that than the word length explains; null when it was not measured.</summary>
    public bool? AddsUp { get; init; }

    /// <summary>Where the time went; null unless asked for.</summary>
    public RunProfile? Profile { get; init; }

    /// <summary>How the store fared, in sentences; nothing of it is part of a ticket.</summary>
    public IReadOnlyList<string> StoreNotes { get; init; } = [];

    /// <summary>What became of files that were in the folder before, in sentences; nothing of it is part of a ticket.</summary>
    public IReadOnlyList<string> FolderNotes { get; init; } = [];

    /// <summary>Those of them that tell what is gone, and must reach a person who asked for quiet too.</summary>
    public IReadOnlyList<string> Losses { get; init; } = [];

    /// <summary>By how much the new prints were lowered, in the sentence that the notes have too: it must reach a person who asked for
    /// quiet. Null when they were not.</summary>
    public string? Lowered { get; init; }

    /// <summary>Those of the findings that the ticket before this run held already: whoever printed last has read them.</summary>
    public IReadOnlyList<string> StandingFindings { get; init; } = [];

    /// <summary>Whether what was there already was looked at, so that only what changed was rendered.</summary>
    public bool LookedForChanges { get; init; }
}

/// <summary>One file of a run, written or left as it was.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Number">First part of the file name.</param>
/// <param name="Name">Second part of the file name.</param>
/// <param name="FileName">The whole file name.</param>
/// <param name="Channels">1 or 2.</param>
/// <param name="Feeds">What its bus is fed from.</param>
/// <param name="PeakDbfs">Largest sample before rounding.</param>
/// <param name="IntegratedLufs">Gated loudness; −∞ without a reading.</param>
/// <param name="GainReductions">Work of each processor that moves the gain: in the print's bus, then in every bus that feeds it.
/// On a rough only its own.</param>
/// <param name="TailS">Seconds after the raw tracks end until the print stays 90 dB below its peak.</param>
/// <param name="LatencyFrames">Processing delay that was taken out.</param>
/// <param name="AudioSha256">Hash of the samples.</param>
/// <param name="FileSha256">Hash of the file.</param>
public sealed record PrintedFile(
    PrintKind Kind,
    int Number,
    string Name,
    string FileName,
    int Channels,
    IReadOnlyList<Feed> Feeds,
    double PeakDbfs,
    double IntegratedLufs,
    IReadOnlyList<GainReduction> GainReductions,
    double TailS,
    long LatencyFrames,
    string AudioSha256,
    string FileSha256)
{
    /// <summary>Whether the file was there already, and proved to be what this run would have written.</summary>
    public bool IsUnchanged { get; init; }

    /// <summary>Why it was rendered, in sentences without a full stop; empty when it is unchanged or nobody asked.</summary>
    public IReadOnlyList<string> Because { get; init; } = [];

    /// <summary>The print of the same number and name that an earlier ticket of the folder tells of. Null without one, or when
    /// this one was not rendered.</summary>
    public EarlierSound? Earlier { get; init; }

    /// <summary>The file in the folder that by its ticket holds the very same samples, of this name or another. Null without one,
    /// or when this one was not rendered.</summary>
    public string? SameSoundAs { get; init; }

    /// <summary>Highest level between samples before rounding, by ITU-R BS.1770-5; −∞ for silence.</summary>
    public double TruePeakDbtp { get; init; } = double.NegativeInfinity;

    /// <summary>Peak over mean level in dB: how far hits stand out; 0 for silence.</summary>
    public double CrestDb { get; init; }

    /// <summary>Loudness range; 0 for less than 3 s.</summary>
    public double RangeLu { get; init; }

    /// <summary>Loudest 400 ms; −∞ without a reading.</summary>
    public double MaxMomentaryLufs { get; init; } = double.NegativeInfinity;

    /// <summary>Loudest 3 s; −∞ without a reading.</summary>
    public double MaxShortTermLufs { get; init; } = double.NegativeInfinity;
}
