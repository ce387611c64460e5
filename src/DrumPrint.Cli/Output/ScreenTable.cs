using System.Text;

namespace DrumPrint.Cli.Output;

/// <summary>A table that breaks no word. Where it is wider than the screen, text wraps between words; where that is not enough, the columns
/// that say least are left out, and that is told.</summary>
/// <param name="hasHead">Whether headings and a rule stand above the rows.</param>
internal sealed class ScreenTable(bool hasHead = true)
{
    private const int Gap = 2;

    private readonly List<Column> _columns = [];
    private readonly List<string[]> _rows = [];

    /// <summary>A column of words.</summary>
    /// <param name="heading">What stands above it; lines end where they do.</param>
    /// <param name="rank">The higher, the sooner it is left out; 0 never is.</param>
    /// <param name="isWhole">Whether its lines are not wrapped.</param>
    public ScreenTable Text(string heading, int rank = 0, bool isWhole = false) => With(new Column(Visible.Lines(heading), false, isWhole, rank));

    /// <summary>A column of figures.</summary>
    /// <param name="heading">What stands above it.</param>
    /// <param name="rank">The higher, the sooner it is left out; 0 never is.</param>
    public ScreenTable Figures(string heading, int rank = 0) => With(new Column(Visible.Lines(heading), true, true, rank));

    /// <summary>A row, one cell for each column. A line break in a cell is made visible; for several lines use <see cref="Lines"/>.</summary>
    public void Row(params IEnumerable<string> cells) => _rows.Add([.. cells]);

    /// <summary>A cell of several lines.</summary>
    public static string Lines(IEnumerable<string> lines) => string.Join('\n', lines.Select(Visible.Line));

    /// <summary>Draws it.</summary>
    /// <param name="screen">Where.</param>
    /// <param name="elsewhere">Where to find what is left out, after "A wider window shows them".</param>
    public void Draw(Screen screen, string elsewhere = "")
    {
        var least = _columns.Select((_, c) => Least(c)).ToArray();
        var most = _columns.Select((_, c) => Most(c)).ToArray();
        var shown = Enumerable.Range(0, _columns.Count).ToList();
        while (Width(shown, least) > screen.Width && shown.MaxBy(c => _columns[c].Rank) is var last && _columns[last].Rank > 0)
        {
            shown.Remove(last);
        }

        var widths = least;
        for (var spare = screen.Width - Width(shown, least); spare > 0 && shown.MaxBy(c => most[c] - widths[c]) is var narrowest && widths[narrowest] < most[narrowest]; spare--)
        {
            widths[narrowest]++;
        }

        screen.Raw("");
        if (hasHead)
        {
            Draw(screen, shown, widths, [.. _columns.Select(c => c.Heading)]);
            screen.Raw(new string('─', Width(shown, widths)));
        }

        foreach (var row in _rows)
        {
            Draw(screen, shown, widths, row);
        }

        screen.Raw("");
        var hidden = Enumerable.Range(0, _columns.Count).Except(shown).Select(c => $"'{_columns[c].Heading.Replace('\n', ' ')}'").ToList();
        if (hidden.Count > 0)
        {
            screen.Line($"Not shown, for want of room: {string.Join(", ", hidden)}. A wider window shows them{elsewhere}.");
        }
    }

    private ScreenTable With(Column column)
    {
        _columns.Add(column);
        return this;
    }

    private static int Width(List<int> columns, int[] widths) => columns.Sum(c => widths[c]) + (Gap * (columns.Count - 1));

    // What a column needs so that nothing in it is broken.
    private int Least(int column) => Cells(column).SelectMany(c => _columns[column].IsWhole ? c.Split('\n') : c.Split('\n', ' ')).Max(TextWidth.Of);

    private int Most(int column) => Cells(column).SelectMany(c => c.Split('\n')).Max(TextWidth.Of);

    private IEnumerable<string> Cells(int column) => _rows.Select(r => r[column]).Concat(hasHead ? [_columns[column].Heading] : []).DefaultIfEmpty("");

    private void Draw(Screen screen, List<int> shown, int[] widths, string[] cells)
    {
        var lines = shown.Select(c => (Column: c, Lines: cells[c].Split('\n').SelectMany(l => TextWidth.Wrap(l, widths[c])).ToList())).ToList();
        for (var n = 0; n < lines.Max(l => l.Lines.Count); n++)
        {
            var text = new StringBuilder();
            foreach (var (column, cell) in lines)
            {
                var part = n < cell.Count ? cell[n] : "";
                var space = new string(' ', Math.Max(0, widths[column] - TextWidth.Of(part)));
                text.Append(text.Length > 0 || column != shown[0] ? new string(' ', Gap) : "").Append(_columns[column].IsFigures ? space + part : part + space);
            }

            screen.Raw(text.ToString().TrimEnd());
        }
    }

    private sealed record Column(string Heading, bool IsFigures, bool IsWhole, int Rank);
}
