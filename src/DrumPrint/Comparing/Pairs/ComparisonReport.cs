namespace DrumPrint.Comparing.Pairs;

/// <summary>Everything a comparison found.</summary>
/// <param name="Main">The pair in front, with its sound.</param>
/// <param name="Others">Further prints that were compared, by number; empty for single files.</param>
/// <param name="Recipe">Settings in which two chains differ, as far as they reach the print in front.</param>
/// <param name="Notes">What a reader should know, in sentences.</param>
public sealed record ComparisonReport(Comparison Main, IReadOnlyList<Comparison> Others, IReadOnlyList<string> Recipe, IReadOnlyList<string> Notes)
{
    /// <summary>Title and version of the song; empty where neither is known.</summary>
    public string Song { get; init; } = "";

    /// <summary>What was changed between the sides, shortest first, without a full stop; empty where that is not known.</summary>
    public IReadOnlyList<string> Changed { get; init; } = [];

    /// <summary>The pair that a page opens on. It is a print that the change is made in, rather than a sum in which it is one of
    /// many.</summary>
    public Comparison Opening { get => field ?? Main; init; }

    /// <summary>The opening print from end to end; null when no page was asked for.</summary>
    public SongOverview? Overview { get; init; }

    /// <summary>Whether the sides are two single sound files, such as two microphones.</summary>
    public bool IsOfFiles { get; init; }
}
