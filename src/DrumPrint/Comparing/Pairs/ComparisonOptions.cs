using DrumPrint.Chains;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Files;

namespace DrumPrint.Comparing.Pairs;

/// <summary>What is compared, where and how.</summary>
public sealed record ComparisonOptions
{
    /// <summary>The print to compare, by number, name or file name, or <c>rough</c> or <c>with-bus</c>. Null is the rough
    /// before the bus where there is one.</summary>
    public string? Print { get; init; }

    /// <summary>What the second side leaves out: <c>BUS</c>, <c>BUS/PROCESSOR</c>, <c>BUS/FEED</c> or a track; null for
    /// nothing.</summary>
    public string? Without { get; init; }

    /// <summary>Start of the passage in seconds, once the tempo map is known; null to have the busiest one found.</summary>
    public Func<TempoMap?, double?> From { get; init; } = static _ => null;

    /// <summary>End of the passage in seconds.</summary>
    public Func<TempoMap?, double?> To { get; init; } = static _ => null;

    /// <summary>How levels are matched.</summary>
    public LevelMatch Match { get; init; }

    /// <summary>Level given to B by hand after matching, −3 to 3 dB.</summary>
    public double TrimDb { get; init; }

    /// <summary>Which files chains may name.</summary>
    public ReadPolicy Reading { get; init; } = ReadPolicy.Default;

    /// <summary>Whether a page is to be made: then every print that differs keeps its sound, and the whole song is looked
    /// over.</summary>
    public bool ForPage { get; init; }

    /// <summary>Writes to the disk.</summary>
    internal FileSteps Steps { get; init; } = FileSteps.Plain;

    /// <summary>Number of threads; null for one for each processor core.</summary>
    public int? Threads { get; init; }
}
