using ScottPlot;

namespace DrumPrint.Gallery;

/// <summary>The look of every picture. Colours differ in lightness too and lines in their dashes, so that no one needs to
/// tell hues apart.</summary>
internal static class House
{
    public const int Width = 1000;
    public const int Height = 600;

    public static readonly Color Ink = Color.FromHex("#1a1a1a");
    public static readonly Color Blue = Color.FromHex("#0a5ea8");
    public static readonly Color Orange = Color.FromHex("#e07b00");
    public static readonly Color Sky = Color.FromHex("#7fb8e6");
    public static readonly Color Grey = Color.FromHex("#9a9a9a");

    private const string Sans = "DejaVu Sans";

    private static readonly double[] Decades = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000];

    public static Plot Plot(string title, string x, string y)
    {
        var plot = new Plot();
        plot.Font.Set(Fonts.GetTypeface(Sans, false, false) is null ? Fonts.Sans : Sans);
        plot.Title(title, 22);
        plot.XLabel(x, 16);
        plot.YLabel(y, 16);
        plot.Axes.Title.Label.Bold = false;
        plot.Axes.Bottom.Label.Bold = false;
        plot.Axes.Left.Label.Bold = false;
        plot.Axes.Bottom.TickLabelStyle.FontSize = 14;
        plot.Axes.Left.TickLabelStyle.FontSize = 14;
        plot.Axes.Bottom.TickGenerator = Ticks();
        plot.Axes.Left.TickGenerator = Ticks();
        plot.Axes.Left.MinimumSize = 72;
        plot.Axes.Right.MinimumSize = 34;
        plot.Axes.Top.FrameLineStyle.Width = 0;
        plot.Axes.Right.FrameLineStyle.Width = 0;
        plot.Grid.MajorLineColor = Color.FromHex("#e4e4e4");
        plot.Legend.FontSize = 14;
        plot.Legend.SymbolWidth = 44;
        plot.Legend.OutlineWidth = 0;
        plot.Legend.ShadowColor = Colors.Transparent;
        plot.Legend.BackgroundColor = Colors.White.WithAlpha(0.85);
        return plot;
    }

    /// <summary>A plot over frequency; x values are decadic logarithms.</summary>
    public static Plot OverFrequency(string title, string y, double low, double high, double from = 20, double to = 20000)
    {
        var plot = Plot(title, "Frequency, Hz", y);
        double[] ticks = [.. Decades.Where(f => f >= from && f <= to)];
        plot.Axes.Bottom.TickGenerator = new ScottPlot.TickGenerators.NumericManual(
            [.. ticks.Select(Math.Log10)],
            [.. ticks.Select(f => f < 1000 ? FormattableString.Invariant($"{f}") : FormattableString.Invariant($"{f / 1000} k"))]);
        plot.Axes.SetLimits(Math.Log10(from), Math.Log10(to), low, high);
        return plot;
    }

    public static ScottPlot.Plottables.Scatter Line(this Plot plot, double[] x, double[] y, Color colour, LinePattern pattern, string? legend = null, float width = 2.5f)
    {
        var line = plot.Add.ScatterLine(x, y, colour);
        line.LinePattern = pattern;
        line.LineWidth = width;
        line.LegendText = legend ?? "";
        return line;
    }

    /// <summary>A line over frequency.</summary>
    public static void Response(this Plot plot, double[] frequencies, Func<double, double> db, Color colour, LinePattern pattern, string? legend = null, float width = 2.5f) =>
        plot.Line([.. frequencies.Select(Math.Log10)], [.. frequencies.Select(db)], colour, pattern, legend, width);

    private static ScottPlot.TickGenerators.NumericAutomatic Ticks() => new()
    {
        MinimumTickSpacing = 34,
        LabelFormatter = value => Math.Round(value, 6).ToString("0.######", System.Globalization.CultureInfo.InvariantCulture).Replace('-', '−'),
    };

    public static void Note(this Plot plot, string text, double x, double y, Color? colour = null)
    {
        var note = plot.Add.Text(text, x, y);
        note.LabelFontSize = 14;
        note.LabelFontColor = colour ?? Ink;
    }
}
