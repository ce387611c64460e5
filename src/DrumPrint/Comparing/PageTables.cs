using System.Text;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Language;

namespace DrumPrint.Comparing;

/// <summary>Tables and lists of a page as they stand in its HTML: read without scripts, and drawn anew by them.</summary>
internal static class PageTables
{
    public static string Numbers(Comparison comparison)
    {
        var (a, b) = (comparison.A.Measures, comparison.B.Measures);
        string[] Row(string name, double valueA, double valueB, int digits = 1) =>
            [name, Known(valueA, digits), Known(valueB, digits), double.IsFinite(valueB - valueA) ? Words.Signed(valueB - valueA, digits) : valueA.Equals(valueB) ? "none" : ""];
        var hits = comparison.Hits;
        return Table(
            ["Measured", "A", "B", "B less A"],
            [
                Row("Loudness, LUFS", a.LoudnessLufs, b.LoudnessLufs),
                Row("Peak, dBFS", a.PeakDbfs, b.PeakDbfs),
                Row("True peak, dBTP", a.TruePeakDbtp, b.TruePeakDbtp),
                Row("Mean level, dBFS", a.RmsDbfs, b.RmsDbfs),
                Row("Crest factor, dB", a.CrestDb, b.CrestDb),
                Row("Loudness range, LU", a.RangeLu, b.RangeLu),
                ["Side against middle, dB", Width(a.WidthDb), Width(b.WidthDb), double.IsFinite(b.WidthDb - a.WidthDb) ? Words.Signed(b.WidthDb - a.WidthDb) : a.WidthDb.Equals(b.WidthDb) ? "none" : ""],
                Row("Lost in mono, dB", a.MonoLossDb, b.MonoLossDb),
                Row("Correlation", a.Correlation, b.Correlation, 2),
                [$"Attack of {hits.Count} hits, matched, dB", "", "", hits.AttackDb is { } attack ? Words.Signed(attack) : "none"],
                [$"Sustain of {hits.SustainCount} hits, matched, dB", "", "", hits.SustainDb is { } sustain ? Words.Signed(sustain) : "none"],
                ["Null, matched, dB", "", "", comparison.Null.IsIdentical ? "−∞" : Known(comparison.Null.RmsDb)],
                ["Delay taken out, ms", "", "", Words.Number(comparison.Alignment.DelayMs, 2)],
            ]);
    }

    public static string Thirds(Comparison comparison) => Table(
        ["Band", "A, dBFS", "B, dBFS", "B less A, dB"],
        comparison.ThirdOctaves.Select(b => new[] { Words.Frequency(b.NominalHz), Known(b.ADb), Known(b.BDb), b.DifferenceDb is { } difference ? Words.Signed(difference) : "too soft" }));

    public static string Others(ComparisonReport report) => Table(
        ["Print", "Loudness, LU", "Crest, dB", "Null, dB"],
        new[] { report.Main }.Concat(report.Others).Where(o => o != report.Opening).Select(o => o.Null.IsIdentical
            ? new[] { o.Title, "identical", "", "−∞" }
            : [o.Title, Known(o.B.Measures.LoudnessLufs - o.A.Measures.LoudnessLufs), Known(o.B.Measures.CrestDb - o.A.Measures.CrestDb), Known(o.Null.RmsDb)]));

    public static string Sections(SongOverview? overview) => Table(
        ["Section", "A, LUFS", "B, LUFS", "B less A, LU"],
        (overview?.Sections ?? []).Select(s => new[]
        {
            FormattableString.Invariant($"{s.Name}, from bar {s.FromBar}"), Known(s.ALufs), Known(s.BLufs), double.IsFinite(s.BLufs - s.ALufs) ? Words.Signed(s.BLufs - s.ALufs) : "",
        }));

    public static string List(IEnumerable<string> texts) => string.Concat(texts.Select(t => $"<li>{PageText.Html(t)}</li>"));

    private static string Width(double db) => double.IsFinite(db) ? Words.Number(db) : Words.Width(db);

    public static string Known(double value, int digits = 1) => double.IsFinite(value) ? Words.Number(value, digits) : "–";

    public static string Table(string[] heads, IEnumerable<string[]> rows)
    {
        var html = new StringBuilder("<thead><tr>");
        foreach (var head in heads)
        {
            html.Append("<th scope=\"col\">").Append(PageText.Html(head)).Append("</th>");
        }

        html.Append("</tr></thead><tbody>");
        foreach (var row in rows)
        {
            html.Append("<tr><th scope=\"row\">").Append(PageText.Html(row[0])).Append("</th>");
            foreach (var cell in row.AsSpan(1))
            {
                html.Append("<td>").Append(PageText.Html(cell)).Append("</td>");
            }

            html.Append("</tr>");
        }

        return html.Append("</tbody>").ToString();
    }
}
