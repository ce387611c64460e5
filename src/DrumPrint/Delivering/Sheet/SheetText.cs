using System.Globalization;
using System.Text;

namespace DrumPrint.Delivering.Sheet;

/// <summary>Writes a sheet as plain text, 78 columns wide.</summary>
internal static class SheetText
{
    private const int Width = 78;
    private const int Short = 16;

    public static string Of(SheetDocument sheet)
    {
        var text = new StringBuilder();
        text.Append(sheet.Title).Append('\n').Append('=', Math.Min(Width, sheet.Title.Length)).Append('\n').Append(sheet.Under).Append('\n');
        foreach (var block in sheet.Blocks)
        {
            text.Append('\n');
            Write(text, block);
        }

        return text.ToString();
    }

    /// <summary>Breaks a text into lines.</summary>
    public static IEnumerable<string> Wrapped(string text, int width)
    {
        var line = new StringBuilder();
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > width)
            {
                yield return line.ToString();
                line.Clear();
            }

            line.Append(line.Length > 0 ? " " : "").Append(word);
        }

        yield return line.ToString();
    }

    private static void Write(StringBuilder text, SheetBlock block)
    {
        switch (block)
        {
            case HeadingBlock heading:
                text.Append(heading.Text).Append('\n').Append('-', heading.Text.Length).Append('\n');
                break;
            case TextBlock paragraph:
                Lines(text, Wrapped(paragraph.Text, Width), "", "");
                break;
            case NoticeBlock notice:
                Lines(text, Wrapped(notice.Text, Width - 2), "! ", "! ");
                break;
            case ListBlock list:
                for (var i = 0; i < list.Items.Count; i++)
                {
                    var mark = list.IsNumbered ? string.Create(CultureInfo.InvariantCulture, $"{i + 1}. ") : "- ";
                    Lines(text, Wrapped(list.Items[i], Width - mark.Length), mark, new string(' ', mark.Length));
                }

                break;
            case TableBlock table:
                Table(text, table);
                break;
            case CurveBlock curve:
                Curve(text, curve);
                break;
        }
    }

    private static void Lines(StringBuilder text, IEnumerable<string> lines, string first, string others)
    {
        var start = first;
        foreach (var line in lines)
        {
            text.Append(start).Append(line).Append('\n');
            start = others;
        }
    }

    // Long cells do not wrap well in columns: a wide table becomes one entry below the other.
    private static void Table(StringBuilder text, TableBlock table)
    {
        var widths = table.Columns.Select((c, i) => table.Rows.Select(r => r[i].Length).Append(c.Head.Length).Max()).ToList();
        if (widths.Sum() + (2 * (widths.Count - 1)) <= Width)
        {
            Row(text, [.. table.Columns.Select(c => c.Head)], table, widths);
            foreach (var row in table.Rows)
            {
                Row(text, row, table, widths);
            }

            return;
        }

        foreach (var row in table.Rows)
        {
            Lines(text, Wrapped(row[0], Width - 2), "* ", "  ");
            var cells = Enumerable.Range(1, row.Count - 1).Where(i => row[i].Length > 0).Select(i => (IsShort: row[i].Length <= Short, Text: $"{table.Columns[i].Head}: {row[i]}")).ToList();
            var inOne = string.Join("; ", cells.Where(c => c.IsShort).Select(c => c.Text));
            foreach (var line in cells.Where(c => !c.IsShort).Select(c => c.Text).Prepend(inOne).Where(l => l.Length > 0))
            {
                Lines(text, Wrapped(line, Width - 6), "    ", "      ");
            }
        }
    }

    private static void Row(StringBuilder text, IReadOnlyList<string> cells, TableBlock table, List<int> widths)
    {
        var line = string.Join("  ", cells.Select((c, i) => table.Columns[i].IsNumber ? c.PadLeft(widths[i]) : c.PadRight(widths[i])));
        text.Append(line.TrimEnd()).Append('\n');
    }

    // A text draws no curve: it gives the values.
    private static void Curve(StringBuilder text, CurveBlock curve)
    {
        text.Append(curve.Title).Append('\n');
        var step = Math.Max(1, curve.Points.Count / 15);
        for (var i = 0; i < curve.Points.Count; i += step)
        {
            var (x, y) = curve.Points[i];
            text.Append(CultureInfo.InvariantCulture, $"  {curve.X.Name} {Language.Words.Number(x, 0),6}   {curve.Y.Name} {Language.Words.Number(y),6}\n");
        }
    }
}
