using System.Globalization;
using System.Net;
using System.Text;
using DrumPrint.Dsp.Alignment;

namespace DrumPrint.Aligning;

/// <summary>When each microphone hears each drum, as a picture: one line for each pair, the place on it is how much later.</summary>
public static class AlignmentPicture
{
    private const int Width = 1000;
    private const int Left = 300;
    private const int Right = 120;
    private const int RowHeight = 24;
    private const int Top = 84;
    private const int Bottom = 60;
    private const int DrumGap = 14;

    // Told apart by shape as well as colour. Filled: the same way round. An open square: the other way. An open circle: it cannot
    // be told.
    private const string Ink = "#1a1a1a";
    private const string Soft = "#575148";
    private const string Line = "#e4e4e4";
    private const string Blue = "#0a5ea8";
    private const string Orange = "#b35c00";

    /// <summary>The picture, SVG.</summary>
    /// <param name="report">What was found.</param>
    public static string Svg(AlignmentReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        var drums = report.Rows.GroupBy(r => r.Drum).ToList();
        var height = Top + Bottom + (report.Rows.Count * RowHeight) + (drums.Count * DrumGap);
        var known = report.Rows.Where(r => r.Found.IsDelayKnown).Select(r => r.Found.DelayMs).ToList();
        var (from, to) = (Math.Floor(Math.Min(0, known.DefaultIfEmpty().Min())), Math.Ceiling(Math.Max(4, known.DefaultIfEmpty().Max())));
        double X(double ms) => Left + ((ms - from) / (to - from) * (Width - Left - Right));
        var svg = new StringBuilder();
        svg.Append(Invariant($"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width} {height}\" font-family=\"DejaVu Sans, sans-serif\" font-size=\"14\" fill=\"{Ink}\" role=\"img\">\n"));
        svg.Append(Invariant($"<title>How much later each microphone hears each drum</title>\n<rect width=\"{Width}\" height=\"{height}\" fill=\"#ffffff\"/>\n"));
        svg.Append(Invariant($"<text x=\"24\" y=\"36\" font-size=\"22\">How much later each microphone hears each drum</text>\n"));
        svg.Append(Invariant($"<text x=\"24\" y=\"60\" fill=\"{Soft}\">filled: same polarity · square: opposite · open circle: polarity cannot be told · no mark: the delay cannot be told</text>\n"));
        var step = to - from > 12 ? 5 : 1;
        for (var ms = Math.Ceiling(from / step) * step; ms <= to; ms += step)
        {
            svg.Append(Invariant($"<path d=\"M{X(ms):0.#} {Top - 8}V{height - Bottom + 6}\" stroke=\"{Line}\"/><text x=\"{X(ms):0.#}\" y=\"{height - Bottom + 24}\" text-anchor=\"middle\">{ms:0}</text>\n"));
        }

        svg.Append(Invariant($"<text x=\"{(Left + Width - Right) / 2}\" y=\"{height - 12}\" text-anchor=\"middle\">later by, ms (1 ms is 0.34 m)</text>\n"));
        var y = Top + DrumGap;
        foreach (var drum in drums)
        {
            foreach (var row in drum)
            {
                Draw(svg, row, X, y);
                y += RowHeight;
            }

            y += DrumGap;
        }

        return svg.Append("</svg>\n").ToString();
    }

    private static void Draw(StringBuilder svg, AlignmentRow row, Func<double, double> x, int y)
    {
        var found = row.Found;
        svg.Append(Invariant($"<text x=\"{Left - 16}\" y=\"{y + 5}\" text-anchor=\"end\">{WebUtility.HtmlEncode($"{row.Reference} → {row.Microphone}")}</text>"));
        if (!found.IsDelayKnown)
        {
            svg.Append(Invariant($"<text x=\"{x(0):0.#}\" y=\"{y + 5}\" fill=\"{Soft}\">cannot be told</text>\n"));
            return;
        }

        var at = x(found.DelayMs);
        var colour = row.Polarity == PairPolarity.Opposite ? Orange : Blue;
        svg.Append(Invariant($"<path d=\"M{x(0):0.#} {y}H{at:0.#}\" stroke=\"{colour}\" stroke-width=\"2\"/>"));
        svg.Append(row.Polarity switch
        {
            PairPolarity.Opposite => Invariant($"<rect x=\"{at - 6:0.#}\" y=\"{y - 6}\" width=\"12\" height=\"12\" fill=\"{colour}\"/>"),
            PairPolarity.Same => Invariant($"<circle cx=\"{at:0.#}\" cy=\"{y}\" r=\"6\" fill=\"{colour}\"/>"),
            _ => Invariant($"<circle cx=\"{at:0.#}\" cy=\"{y}\" r=\"6\" fill=\"#ffffff\" stroke=\"{colour}\" stroke-width=\"2\"/>"),
        });
        svg.Append(Invariant($"<text x=\"{at + 12:0.#}\" y=\"{y + 5}\">{found.DelayMs:0.00} ms</text>\n"));
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
