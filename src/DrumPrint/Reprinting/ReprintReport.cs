namespace DrumPrint.Reprinting;

/// <summary>What making prints again has shown.</summary>
/// <param name="Prints">Every print of the target.</param>
/// <param name="Notes">What was found on the way, in sentences: raw files that moved, changed or got other tags.</param>
public sealed record ReprintReport(IReadOnlyList<Reprinted> Prints, IReadOnlyList<string> Notes)
{
    /// <summary>Whether every print came out the same to the last byte.</summary>
    public bool IsIdentical => Prints.All(p => p.Outcome == ReprintOutcome.Identical);
}

/// <summary>One print made again.</summary>
/// <param name="FileName">The file as it was.</param>
/// <param name="Outcome">How it compares.</param>
public sealed record Reprinted(string FileName, ReprintOutcome Outcome)
{
    /// <summary>First frame that differs; null when none does or the old samples are not there to compare.</summary>
    public long? FirstDifference { get; init; }

    /// <summary>Time of that frame in the print, in seconds.</summary>
    public double? FirstDifferenceS { get; init; }

    /// <summary>Place of that frame as a bar number with a fraction; null too where the chain names no tempo map.</summary>
    public double? FirstDifferenceBar { get; init; }

    /// <summary>Largest difference of any sample; null when it could not be measured.</summary>
    public double? ResidualDbfs { get; init; }

    /// <summary>The most likely cause of a difference, in a sentence; null when there is none.</summary>
    public string? Cause { get; init; }
}

/// <summary>How a print made again compares with the old one.</summary>
public enum ReprintOutcome
{
    /// <summary>The same to the last byte.</summary>
    Identical,

    /// <summary>The same samples, but something else in the file differs.</summary>
    SameAudio,

    /// <summary>Other samples.</summary>
    Differs,
}
