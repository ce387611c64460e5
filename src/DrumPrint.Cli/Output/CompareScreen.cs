using DrumPrint.Comparing.Album;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Language;

namespace DrumPrint.Cli.Output;

/// <summary>Shows how two sides compare.</summary>
internal static class CompareScreen
{
    // Of 14 characters each, with two between: 78 columns.
    private const int BandsInLine = 5;

    public static void Write(ComparisonReport report, string? page)
    {
        var console = Terminal.Screen();
        var main = report.Main;
        console.Line($"A  {main.A.Name}");
        console.Line($"B  {main.B.Name}");
        console.Line($"{(main.Title.Length > 0 ? main.Title + ", " : "")}{main.PlaceWords}");
        console.Line();
        console.Line($"{main.Verdict}");
        Numbers(main).Draw(console);
        if (report.Others.Count > 0)
        {
            Others(report.Others).Draw(console, ", --json too");
        }

        console.Line("Spectrum, B less A, matched, in dB:");
        foreach (var line in Spectrum(main))
        {
            console.Line(line);
        }

        foreach (var curve in main.GainReductions.Where(c => c.IsWorthTelling))
        {
            console.Line($"Gain reduction of {curve.Title}: {curve.Words}.");
        }

        if (report.Recipe.Count > 0)
        {
            console.Line("Settings that differ, A → B:");
        }

        foreach (var line in report.Recipe.Concat(report.Notes))
        {
            console.Line($"{line}");
        }

        console.Line($"{(page is null ? "To listen, look and test yourself blind: add --page compare.html" : $"Open {page} to listen. {Screen.HearingNote}")}");
    }

    public static void Write(AlbumReport report, string? page)
    {
        var console = Terminal.Screen();
        console.Line($"{report.Verdict}");
        var table = new ScreenTable().Text(report.HasRough ? "LU against the rough" : "LUFS");
        foreach (var (song, n) in report.Songs.Select((s, n) => (s, n)))
        {
            table.Figures(Visible.Line(song), n);
        }

        table.Figures("Moves by");
        foreach (var print in report.Prints)
        {
            table.Row(
            [
                Visible.Line(FormattableString.Invariant($"{print.Number:00} {print.Name}")),
                .. print.Cells.Select(c => c is null ? "none" : Words.Number(c.Level)),
                print.MoveLu is { } move ? Words.Number(move) : "",
            ]);
        }

        table.Draw(console, ", --json too");
        foreach (var note in report.Notes)
        {
            console.Line($"{note}");
        }

        if (page is not null)
        {
            console.Line($"Open {page} to see how each print moves, and to listen. {Screen.HearingNote}");
        }
    }

    private static ScreenTable Numbers(Comparison comparison)
    {
        var (a, b) = (comparison.A.Measures, comparison.B.Measures);
        var table = new ScreenTable().Text("").Figures("A").Figures("B").Figures("B less A");

        void Row(string name, double valueA, double valueB, string unit, string apart, Func<double, string>? words = null)
        {
            words ??= value => $"{Words.Number(value)} {unit}";
            table.Row(
                name,
                words(valueA),
                words(valueB),
                double.IsFinite(valueB - valueA) ? $"{Words.Signed(valueB - valueA)} {apart}" : valueA.Equals(valueB) ? "none" : "");
        }

        Row("Loudness", a.LoudnessLufs, b.LoudnessLufs, "LUFS", "LU");
        Row("Peak", a.PeakDbfs, b.PeakDbfs, "dBFS", "dB");
        Row("True peak", a.TruePeakDbtp, b.TruePeakDbtp, "dBTP", "dB");
        Row("Crest factor", a.CrestDb, b.CrestDb, "dB", "dB");
        Row("Loudness range", a.RangeLu, b.RangeLu, "LU", "LU");
        Row("Side against middle", a.WidthDb, b.WidthDb, "dB", "dB", Words.Width);
        Row("Lost in mono", a.MonoLossDb, b.MonoLossDb, "dB", "dB");
        var hits = comparison.Hits;
        table.Row($"Attack of {Words.Count(hits.Count, "hit")}, matched", "", "", hits.AttackDb is { } attack ? $"{Words.Signed(attack)} dB" : "none");
        table.Row($"Sustain of {Words.Count(hits.SustainCount, "hit")}, matched", "", "", hits.SustainDb is { } sustain ? $"{Words.Signed(sustain)} dB" : "none");
        table.Row("Null, matched", "", "", $"{Words.Number(comparison.Null.RmsDb)} dB");
        var matching = comparison.Matching;
        table.Row(
            $"Level, matched by {Metric(matching.Metric)}",
            $"{Words.Number(matching.LevelOfADb, 2)} dB",
            $"{Words.Number(matching.LevelOfBDb, 2)} dB",
            $"{Words.Signed(matching.LevelOfBDb - matching.LevelOfADb, 2)} dB");
        table.Row("By hand, in that", "", "", $"{Words.Signed(matching.TrimDb, 2)} dB");
        return table;
    }

    private static IEnumerable<string> Spectrum(Comparison comparison) => comparison.ThirdOctaves
        .Where(b => b.DifferenceDb is not null)
        .Select(b => $"{Words.Frequency(b.NominalHz),8} {Words.Signed(b.DifferenceDb!.Value),5}")
        .Chunk(BandsInLine)
        .Select(line => string.Join("  ", line))
        .DefaultIfEmpty("none: neither side has sound");

    private static ScreenTable Others(IReadOnlyList<Comparison> others)
    {
        var table = new ScreenTable().Text("Print").Text("Passage", 1).Figures("Loudness").Figures("Crest").Figures("Null");
        foreach (var other in others)
        {
            var (a, b) = (other.A.Measures, other.B.Measures);
            string[] cells = other.Null.IsIdentical
                ? ["identical", "", "−∞ dB"]
                : [$"{Words.Signed(b.LoudnessLufs - a.LoudnessLufs)} LU", $"{Words.Signed(b.CrestDb - a.CrestDb)} dB", $"{Words.Number(other.Null.RmsDb)} dB"];
            table.Row([Visible.Line(other.Title), Visible.Line(other.Passage.Words), .. cells]);
        }

        return table;
    }

    private static string Metric(LevelMatch match) => match switch
    {
        LevelMatch.Loudness => "gated loudness",
        LevelMatch.Rms => "mean level",
        _ => "nothing (true level)",
    };
}
