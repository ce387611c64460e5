using DrumPrint.Conformance.Checks;

namespace DrumPrint.Conformance;

/// <summary>Every check, in the order of the sheet.</summary>
internal static class AllChecks
{
    public static IReadOnlyList<(string Title, string Note, IReadOnlyList<Check> Checks)> Sections { get; } =
    [
        ("eq", EqChecks.Note, [.. EqChecks.All()]),
        ("phase", PhaseChecks.Note, [.. PhaseChecks.All()]),
        ("bands and dynamic_eq", BandChecks.Note, [.. BandChecks.All()]),
        ("compress", CompressChecks.Note, [.. CompressChecks.All()]),
        ("gate", GateChecks.Note, [.. GateChecks.All()]),
        ("gate as expander, and duck", ExpandDuckChecks.Note, [.. ExpandDuckChecks.All()]),
        ("limit", LimitChecks.Note, [.. LimitChecks.All()]),
        ("hits", HitsChecks.Note, [.. HitsChecks.All()]),
        ("spill", SpillChecks.Note, [.. SpillChecks.All()]),
        ("hum", HumChecks.Note, [.. HumChecks.All()]),
        ("clip", ClipChecks.Note, [.. ClipChecks.All()]),
        ("saturate", SaturateChecks.Note, [.. SaturateChecks.All()]),
        ("tape", TapeChecks.Note, [.. TapeChecks.All()]),
        ("convolve", ConvolveChecks.Note, [.. ConvolveChecks.All()]),
        ("resample", ResampleChecks.Note, [.. ResampleChecks.All()]),
        ("layer", LayerChecks.Note, [.. LayerChecks.All()]),
        ("delay", "", [.. DelayChecks.All()]),
        ("gain, polarity and width", "", [.. PlainChecks.All()]),
        ("measure", MeasureChecks.Note, [.. MeasureChecks.All()]),
        ("print", PrintChecks.Note, [.. PrintChecks.All()]),
        ("dither", "", [.. DitherChecks.All()]),
        ("session: many microphones", SessionChecks.Note, [.. SessionChecks.All()]),
        ("alignment: two microphones", AlignmentChecks.Note, [.. AlignmentChecks.All()]),
        ("robust", RobustChecks.Note, [.. RobustChecks.All()]),
    ];

    public static IEnumerable<Check> Flat => Sections.SelectMany(s => s.Checks);
}
