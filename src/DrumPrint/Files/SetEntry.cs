namespace DrumPrint.Files;

/// <summary>One name of a set of files that changes in one step.</summary>
/// <param name="Name">The name, without a folder.</param>
internal sealed record SetEntry(string Name)
{
    /// <summary>Temporary name of the new file; null when the old one only goes.</summary>
    public string? Staged { get; init; }

    /// <summary>Hash of the new file; null without one.</summary>
    public string? NewSha256 { get; init; }

    /// <summary>Hash of the file that has the name so far; null when none has.</summary>
    public string? OldSha256 { get; init; }

    /// <summary>Temporary name the old file goes by until the set is whole, and is then gone; null when it is kept, or there is none.</summary>
    public string? Before { get; init; }

    /// <summary>Name of the old file in the folder of those that are kept; null when it is not.</summary>
    public string? KeptAs { get; init; }
}
