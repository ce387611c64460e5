using DrumPrint.Files;

namespace DrumPrint.Reprinting;

/// <summary>How prints are made again.</summary>
public sealed record ReprintOptions
{
    /// <summary>Folders to look for raw files in, all the way down.</summary>
    public IReadOnlyList<string> RawFolders { get; init; } = [];

    /// <summary>Folder to keep the new prints in; null to compare them and throw them away.</summary>
    public string? OutFolder { get; init; }

    /// <summary>Which files outside these folders and those around the target a ticket may name.</summary>
    public ReadPolicy Reading { get; init; } = ReadPolicy.Default;

    /// <summary>Writes to the disk.</summary>
    internal FileSteps Steps { get; init; } = FileSteps.Plain;

    /// <summary>Number of threads; null for one for each processor core.</summary>
    public int? Threads { get; init; }
}
