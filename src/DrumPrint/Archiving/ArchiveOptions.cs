using DrumPrint.Files;

namespace DrumPrint.Archiving;

/// <summary>What an archive is made of, and where it goes.</summary>
public sealed record ArchiveOptions
{
    /// <summary>The folder that archives go to, each in a folder of its own.</summary>
    public required string To { get; init; }

    /// <summary>Where the prints lie; null for the folder beside the chain.</summary>
    public string? PrintsFolder { get; init; }

    /// <summary>Which build made it, such as <c>0.9.0 (linux-x64, native, built from 1a2b3c4)</c>; null names the version alone.</summary>
    public string? Build { get; init; }

    /// <summary>Lets tests stand in the way of a step.</summary>
    internal FileSteps Steps { get; init; } = FileSteps.Plain;
}
