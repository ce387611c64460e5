using System.Globalization;
using System.Net;
using System.Text;

namespace DrumPrint.Delivering.Sheet;

/// <summary>Writes a sheet as one HTML file that asks for nothing else: no script, no font, no picture from elsewhere.</summary>
internal static class SheetHtml
{
    private const double PlotWidth = 470;
    private const double PlotHeight = 220;
    private const double Left = 46;
    private const double Top = 12;

    public static string Of(SheetDocument sheet)
    {
        var html = new StringBuilder();
        html.Append("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        html.Append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n<meta name=\"referrer\" content=\"no-referrer\">\n");
        html.Append("<title>").Append(Escaped(sheet.Title)).Append("</title>\n<style>\n").Append(Part("Comparing.Page.page.css")).Append(Part("Delivering.Sheet.sheet.css")).Append("</style>\n</head>\n<body>\n<main class=\"sheet\">\n");
        html.Append("<header>\n<h1>").Append(Escaped(sheet.Title)).Append("</h1>\n<p class=\"over\">").Append(Escaped(sheet.Under)).Append("</p>\n</header>\n");
        html.Append(Body(sheet.Blocks));
        return html.Append("</main>\n</body>\n</html>\n").ToString();
    }

    /// <summary>The pieces alone, a section for each heading.</summary>
    public static string Body(IReadOnlyList<SheetBlock> blocks)
    {
        var html = new StringBuilder();
        var isOpen = false;
        foreach (var block in blocks)
        {
            if (block is HeadingBlock heading)
            {
                html.Append(isOpen ? "</section>\n" : "").Append("<section>\n<h2>").Append(Escaped(heading.Text)).Append("</h2>\n");
                isOpen = true;
                continue;
            }

            Write(html, block);
        }

        return html.Append(isOpen ? "</section>\n" : "").ToString();
    }

    private static void Write(StringBuilder html, SheetBlock block)
    {
        switch (block)
        {
            case TextBlock text:
                html.Append("<p>").Append(Escaped(text.Text)).Append("</p>\n");
                break;
            case NoticeBlock notice:
                html.Append("<p class=\"notice\"><strong>").Append(Escaped(notice.Text)).Append("</strong></p>\n");
                break;
            case ListBlock list:
                var tag = list.IsNumbered ? "ol" : "ul";
                html.Append('<').Append(tag).Append(">\n");
                foreach (var item in list.Items)
                {
                    html.Append("<li>").Append(Escaped(item)).Append("</li>\n");
                }

                html.Append("</").Append(tag).Append(">\n");
                break;
            case TableBlock table:
                Table(html, table);
                break;
            case CurveBlock curve:
                Curve(html, curve);
                break;
        }
    }

    private static void Table(StringBuilder html, TableBlock table)
    {
        html.Append("<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"").Append(Escaped(table.Columns[0].Head)).Append("\"><table>\n<colgroup>");
        var whole = table.Columns.Sum(c => c.Share);
        foreach (var column in table.Columns)
        {
            html.Append(CultureInfo.InvariantCulture, $"<col style=\"width:{100 * column.Share / whole:0.#}%\">");
        }

        html.Append("</colgroup>\n<thead><tr>");
        foreach (var column in table.Columns)
        {
            html.Append(column.IsNumber ? "<th scope=\"col\" class=\"n\">" : "<th scope=\"col\">").Append(Escaped(column.Head)).Append("</th>");
        }

        html.Append("</tr></thead>\n<tbody>\n");
        foreach (var row in table.Rows)
        {
            html.Append("<tr>");
            for (var i = 0; i < row.Count; i++)
            {
                html.Append(table.Columns[i].IsNumber ? "<td class=\"n\">" : "<td>").Append(Escaped(row[i])).Append("</td>");
            }

            html.Append("</tr>\n");
        }

        html.Append("</tbody>\n</table></div>\n");
    }

    private static void Curve(StringBuilder html, CurveBlock curve)
    {
        html.Append("<figure>\n<figcaption>").Append(Escaped(curve.Title)).Append("</figcaption>\n");
        html.Append(CultureInfo.InvariantCulture, $"<svg viewBox=\"0 0 {Left + PlotWidth + 14:0} {Top + PlotHeight + 40:0}\" role=\"img\" aria-label=\"{Escaped(curve.Title)}\">\n");
        foreach (var (at, word) in curve.X.Marks)
        {
            var x = Left + (PlotWidth * curve.X.Place(at));
            html.Append(CultureInfo.InvariantCulture, $"<path class=\"grid\" d=\"M{x:0.0} {Top}V{Top + PlotHeight}\"/><text x=\"{x:0.0}\" y=\"{Top + PlotHeight + 15}\" text-anchor=\"middle\">{Escaped(word)}</text>\n");
        }

        foreach (var (at, word) in curve.Y.Marks)
        {
            var y = Top + (PlotHeight * (1 - curve.Y.Place(at)));
            html.Append(CultureInfo.InvariantCulture, $"<path class=\"grid\" d=\"M{Left} {y:0.0}H{Left + PlotWidth}\"/><text x=\"{Left - 6}\" y=\"{y + 4:0.0}\" text-anchor=\"end\">{Escaped(word)}</text>\n");
        }

        html.Append(CultureInfo.InvariantCulture, $"<rect class=\"edge\" x=\"{Left}\" y=\"{Top}\" width=\"{PlotWidth}\" height=\"{PlotHeight}\"/>\n");
        html.Append(CultureInfo.InvariantCulture, $"<text x=\"{Left + PlotWidth}\" y=\"{Top + PlotHeight + 32}\" text-anchor=\"end\">{Escaped(curve.X.Name)} across, {Escaped(curve.Y.Name)} up</text>\n");
        if (curve.ReferenceLine is { } line)
        {
            Path(html, "against", curve, line);
        }

        Path(html, "curve", curve, curve.Points);
        html.Append("</svg>\n</figure>\n");
    }

    private static void Path(StringBuilder html, string name, CurveBlock curve, IReadOnlyList<(double X, double Y)> points)
    {
        html.Append("<path class=\"").Append(name).Append("\" d=\"");
        for (var i = 0; i < points.Count; i++)
        {
            html.Append(CultureInfo.InvariantCulture, $"{(i == 0 ? "M" : "L")}{Left + (PlotWidth * curve.X.Place(points[i].X)):0.0} {Top + (PlotHeight * (1 - curve.Y.Place(points[i].Y))):0.0}");
        }

        html.Append("\"/>\n");
    }

    private static string Escaped(string text) => WebUtility.HtmlEncode(text);

    /// <summary>A part of a page as text, by its name in this assembly.</summary>
    public static string Part(string name)
    {
        using var stream = typeof(SheetHtml).Assembly.GetManifestResourceStream($"DrumPrint.{name}")!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
