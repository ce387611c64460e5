namespace DrumPrint.Checking.Findings;

/// <summary>Something that was found.</summary>
public sealed record Finding
{
    public required Rule Rule { get; init; }

    public required Severity Severity { get; init; }

    /// <summary>Track, bus or print, as the chain calls it, or a file's name; empty for the whole set.</summary>
    public required string Track { get; init; }

    /// <summary>What was measured, with its unit.</summary>
    public required string Measured { get; init; }

    /// <summary>One sentence: what was measured, and what it means.</summary>
    public required string Sentence { get; init; }

    /// <summary>Times at which it is heard, in seconds from the start of the file; none for what is true of the whole.</summary>
    public IReadOnlyList<double> PlacesS { get; init; } = [];

    /// <summary>How often it was found; places may be fewer.</summary>
    public int Count { get; init; } = 1;

    /// <summary>A size to measure other findings of this kind by, in the unit of <see cref="Measured"/>; null where there is none.</summary>
    public double? Value { get; init; }

    /// <summary>Why somebody signed it off; null where nobody did.</summary>
    public string? AcceptedWhy { get; init; }
}
