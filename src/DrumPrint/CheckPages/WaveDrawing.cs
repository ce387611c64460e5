using System.Globalization;
using System.Text;
using DrumPrint.Checking.Pictures;
using DrumPrint.Comparing;

namespace DrumPrint.CheckPages;

/// <summary>Draws a stretch of sound. It has no words in it, so that it may be as narrow as a telephone.</summary>
internal static class WaveDrawing
{
    private const int Half = 50;

    /// <summary>The drawing, SVG for a page.</summary>
    /// <param name="picture">The stretch.</param>
    /// <param name="said">What it shows, for those who do not see it.</param>
    public static string Of(FindingPicture picture, string said)
    {
        var columns = picture.Lanes[0].Highest.Count;
        var height = 2 * Half * picture.Lanes.Count;
        var svg = new StringBuilder();
        svg.Append(Text($"<div class=\"wave-box\"><svg viewBox=\"0 0 {columns} {height}\" preserveAspectRatio=\"none\" role=\"img\" aria-label=\"{PageText.Html(said)}\">"));
        foreach (var mark in picture.MarksS.Where(m => m >= picture.FromS && m <= picture.ToS))
        {
            var x = (mark - picture.FromS) / (picture.ToS - picture.FromS) * columns;
            svg.Append(Text($"<path class=\"mark\" d=\"M{x:0.#} 0V{height}\"/>"));
        }

        for (var i = 0; i < picture.Lanes.Count; i++)
        {
            var middle = Half + (2 * Half * i);
            svg.Append(Text($"<path class=\"middle\" d=\"M0 {middle}H{columns}\"/><path class=\"sound\" d=\""));
            Outline(svg, picture.Lanes[i], middle);
            svg.Append("Z\"/>");
        }

        return svg.Append("</svg></div>").ToString();
    }

    // Along the upper edge, and back along the lower one.
    private static void Outline(StringBuilder svg, WaveLane lane, int middle)
    {
        var columns = lane.Highest.Count;
        for (var x = 0; x < columns; x++)
        {
            svg.Append(Text($"{(x == 0 ? 'M' : 'L')}{x} {middle - (Half * lane.Highest[x]):0.#}"));
        }

        for (var x = columns - 1; x >= 0; x--)
        {
            svg.Append(Text($"L{x} {middle - (Half * lane.Lowest[x]):0.#}"));
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
