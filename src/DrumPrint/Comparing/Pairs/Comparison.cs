using DrumPrint.Comparing.Measuring;

namespace DrumPrint.Comparing.Pairs;

/// <summary>Two sides held against each other over one passage.</summary>
public sealed record Comparison
{
    /// <summary>What is compared, such as <c>90 RoughPreBus</c>; empty for two single files.</summary>
    public required string Title { get; init; }

    public required ComparedSide A { get; init; }

    public required ComparedSide B { get; init; }

    public required Passage Passage { get; init; }

    public required Alignment Alignment { get; init; }

    /// <summary>Frames of the passage that only one side has once B is moved; they are left out of it.</summary>
    public int UnpairedFrames { get; init; }

    public required Matching Matching { get; init; }

    public required NullTest Null { get; init; }

    /// <summary>Levels of each third octave, matched.</summary>
    public required IReadOnlyList<ThirdOctave> ThirdOctaves { get; init; }

    /// <summary>Attack and sustain of hits, matched.</summary>
    public required HitDifference Hits { get; init; }

    public required IReadOnlyList<GainReductionCurve> GainReductions { get; init; }

    /// <summary>The part of the chain that B leaves out; null when nothing was left out.</summary>
    public string? LeftOut { get; init; }

    /// <summary>What the part that B leaves out adds; null when nothing was left out.</summary>
    public Addition? Addition { get; init; }

    /// <summary>Whether the files are the same from end to end; null when that was not looked at.</summary>
    public bool? IsWholeIdentical { get; init; }

    /// <summary>The place and why it was chosen, in words.</summary>
    public string PlaceWords => Passage.How switch
    {
        PassageChoice.Busiest when Hits.Count == 0 => $"{Passage.Words}: the loudest {Passage.FoundSeconds:0} s of A",
        PassageChoice.Busiest => $"{Passage.Words}: the {Passage.FoundSeconds:0} s with the most hits in A ({Hits.Count})",
        PassageChoice.Whole => $"{Passage.Words}: all that both sides hold",
        _ => $"{Passage.Words}, as asked for",
    };

    /// <summary>What was found, in a paragraph.</summary>
    public string Verdict => ComparisonVerdict.Of(this);
}

/// <summary>One side of a comparison.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Measures">What was measured at its own level.</param>
/// <param name="Channels">1 or 2.</param>
public sealed record ComparedSide(string Name, SideMeasures Measures, int Channels)
{
    /// <summary>The passage, lined up, at its own level.</summary>
    internal Sound? Sound { get; init; }
}

/// <summary>How far one processor turned the signal down over the passage, in both sides.</summary>
/// <param name="Bus">Its bus.</param>
/// <param name="Processor">Its key.</param>
/// <param name="Ordinal">1 for the first of its kind in the bus.</param>
/// <param name="StepS">Seconds between two values.</param>
/// <param name="A">Reduction in dB, 0 or more; null where side A has no such processor.</param>
/// <param name="B">Reduction in dB, 0 or more; null where side B has no such processor.</param>
public sealed record GainReductionCurve(string Bus, string Processor, int Ordinal, double StepS, IReadOnlyList<double>? A, IReadOnlyList<double>? B)
{
    private const double TenthDb = 0.1;

    /// <summary>Whether it turns anything down by a tenth of a decibel in either side.</summary>
    internal bool IsAtWork => (A ?? []).Concat(B ?? []).DefaultIfEmpty().Max() >= TenthDb;

    /// <summary>Bus and processor as a chain's reader knows them.</summary>
    public string Title => Ordinal == 1 ? $"{Bus}/{Processor}" : $"{Bus}/{Processor} {Ordinal}";

    /// <summary>Whether the processor works, and not alike in both sides to a tenth of a decibel.</summary>
    public bool IsWorthTelling => A is null || B is null
        ? (A ?? B)!.DefaultIfEmpty().Max() >= TenthDb
        : A.Zip(B).Any(v => Math.Abs(v.First - v.Second) >= TenthDb);

    /// <summary>Its work in both sides, in words.</summary>
    public string Words => $"A {Told(A)}; B {Told(B)}";

    private static string Told(IReadOnlyList<double>? values) => values is null or { Count: 0 }
        ? "has no such processor"
        : $"up to {Language.Words.Number(values.Max())} dB, {Language.Words.Number(values.Average())} dB on average";
}
