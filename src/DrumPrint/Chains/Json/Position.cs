namespace DrumPrint.Chains.Json;

/// <summary>A place in a text file; lines and characters count from 1.</summary>
internal readonly record struct Position(int Line, int Column)
{
    /// <summary>The file, where it is not the one that is read in the first place.</summary>
    public string? File { get; init; }

    /// <summary>The line, and the file where that is another one.</summary>
    public string LineWords => File is null ? FormattableString.Invariant($"line {Line}") : FormattableString.Invariant($"line {Line} of {File}");

    public static Position Start => new(1, 1);
}
