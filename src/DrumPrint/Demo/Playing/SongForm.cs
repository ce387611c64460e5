using DrumPrint.Chains;

namespace DrumPrint.Demo.Playing;

/// <summary>Bars, metres, tempi and sections of the invented song "Slow Ferry to Marrow Point".</summary>
internal static class SongForm
{
    public const int SampleRate = 48000;
    public const string TempoFile = "raw/tempo.json";

    private static readonly TempoStretch[] Stretches =
    [
        new(1, 4, 4, 104),
        new(22, 2, 4, 104),
        new(23, 4, 4, 104),
        new(46, 2, 4, 104),
        new(47, 4, 4, 104),
        new(55, 4, 4, 102),
        new(63, 4, 4, 105),
        new(81, 4, 4, 102),
        new(82, 4, 4, 99),
        new(83, 4, 4, 96),
        new(84, 4, 4, 92),
    ];

    private static readonly Section[] Sections =
    [
        new(1, "count-in"),
        new(3, "intro"),
        new(7, "verse 1"),
        new(19, "pre 1"),
        new(23, "chorus 1"),
        new(31, "verse 2"),
        new(43, "pre 2"),
        new(47, "chorus 2"),
        new(55, "bridge"),
        new(63, "chorus 3"),
        new(79, "outro"),
    ];

    /// <summary>The whole song, bars 1 to 84.</summary>
    public static TempoMap Whole { get; } = new(TempoFile, Stretches, Sections, 84);

    /// <summary>Bars 17 to 26: the end of a verse, a pre-chorus with a bar of 2/4 and a tom fill, a chorus's entry.</summary>
    public static TempoMap Cut { get; } = Between(17, 26);

    private static TempoMap Between(int first, int last) => new(
        TempoFile,
        [.. Stretches.Where(s => s.FromBar <= last).GroupBy(s => Math.Max(s.FromBar, first)).Select(g => g.Last() with { FromBar = g.Key })],
        [.. Sections.Where(s => s.FromBar <= last).GroupBy(s => Math.Max(s.FromBar, first)).Select(g => g.Last() with { FromBar = g.Key })],
        last);
}
