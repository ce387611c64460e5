using System.Globalization;
using System.Net;
using System.Text;

namespace DrumPrint.Measuring;

/// <summary>How many hits there are at each level, as a picture.</summary>
public static class HitPicture
{
    private const int Width = 1000;
    private const int Left = 60;
    private const int Right = 30;
    private const int PanelHeight = 190;
    private const int PlotHeight = 110;
    private const int Top = 70;
    private const int LowestDb = -72;

    /// <summary>The picture, SVG: a panel for each file.</summary>
    /// <param name="reports">What was measured.</param>
    public static string Svg(IReadOnlyList<HitReport> reports)
    {
        ArgumentNullException.ThrowIfNull(reports);
        var height = Top + (reports.Count * PanelHeight) + 20;
        var svg = new StringBuilder();
        svg.Append(Text($"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width} {height}\" font-family=\"DejaVu Sans, sans-serif\" font-size=\"14\" fill=\"#1a1a1a\" role=\"img\">\n<title>Levels of hits, ghosts and spill</title>\n<rect width=\"{Width}\" height=\"{height}\" fill=\"#ffffff\"/>\n"));
        svg.Append(Text($"<text x=\"24\" y=\"36\" font-size=\"22\">Levels of hits, ghosts and spill</text>\n<text x=\"24\" y=\"58\" fill=\"#575148\">dark: hits · middle: ghosts · light: spill · dashed: a threshold between them · highest sample of each hit, dBFS</text>\n"));
        for (var i = 0; i < reports.Count; i++)
        {
            Panel(svg, reports[i], Top + (i * PanelHeight));
        }

        return svg.Append("</svg>\n").ToString();
    }

    private static void Panel(StringBuilder svg, HitReport report, int top)
    {
        var bottom = top + 30 + PlotHeight;
        (string Colour, LevelSpread Spread)[] sorts = [("#9fc5e8", report.Spill), ("#e07b00", report.Ghosts), ("#0a5ea8", report.Hits)];
        var counts = sorts.Select(s => Counts(s.Spread)).ToArray();
        var most = Math.Max(1, Enumerable.Range(0, -LowestDb).Max(bin => counts.Sum(c => c[bin])));
        svg.Append(Text($"<text x=\"{Left}\" y=\"{top + 20}\">{WebUtility.HtmlEncode(Path.GetFileName(report.File))}</text>\n"));
        for (var db = LowestDb; db <= 0; db += 12)
        {
            svg.Append(Text($"<path d=\"M{X(db):0.#} {top + 30}V{bottom}\" stroke=\"#e4e4e4\"/><text x=\"{X(db):0.#}\" y=\"{bottom + 18}\" text-anchor=\"middle\">{(db < 0 ? "−" : "")}{-db}</text>\n"));
        }

        for (var bin = 0; bin < -LowestDb; bin++)
        {
            var y = (double)bottom;
            for (var s = 0; s < sorts.Length; s++)
            {
                var bar = (double)counts[s][bin] / most * PlotHeight;
                y -= bar;
                if (bar > 0)
                {
                    svg.Append(Text($"<rect x=\"{X(LowestDb + bin) + 0.5:0.#}\" y=\"{y:0.#}\" width=\"{X(1) - X(0) - 1:0.#}\" height=\"{bar:0.#}\" fill=\"{sorts[s].Colour}\"/>"));
                }
            }
        }

        svg.Append(Text($"<path d=\"M{Left} {bottom}H{Width - Right}\" stroke=\"#1a1a1a\"/>\n"));
        if (report.OpenDb is { } open)
        {
            svg.Append(Text($"<path d=\"M{X(open):0.#} {top + 26}V{bottom}\" stroke=\"#1a1a1a\" stroke-width=\"2\" stroke-dasharray=\"6 4\"/><text x=\"{X(open) + 6:0.#}\" y=\"{top + 40}\">{(open < 0 ? "−" : "")}{Math.Abs(open):0.0}</text>\n"));
        }
    }

    private static int[] Counts(LevelSpread spread)
    {
        var counts = new int[-LowestDb];
        foreach (var db in spread.PeaksDb)
        {
            counts[Math.Clamp((int)Math.Floor(db) - LowestDb, 0, counts.Length - 1)]++;
        }

        return counts;
    }

    private static double X(double db) => Left + ((db - LowestDb) / -LowestDb * (Width - Left - Right));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
