using System.Globalization;
using DrumPrint.Reprinting;

namespace DrumPrint.Cli.Output;

/// <summary>Shows how prints made again compare.</summary>
internal static class ReprintScreen
{
    /// <param name="report">What came out.</param>
    /// <param name="folder">Where the new prints were kept; null where they were thrown away.</param>
    public static void Write(ReprintReport report, string? folder)
    {
        var console = Terminal.Screen();
        var table = new ScreenTable().Text("Print").Text("Made again");
        foreach (var print in report.Prints)
        {
            table.Row(Visible.Line(print.FileName), ScreenTable.Lines(Outcome(print).ReplaceLineEndings("\n").Split('\n')));
        }

        table.Draw(console);
        foreach (var note in report.Notes)
        {
            console.Line($"{note}");
        }

        console.Line($"{Summary(report)}");
        if (folder is not null)
        {
            console.Line(Screen.HearingNote);
        }
    }

    private static string Summary(ReprintReport report)
    {
        var identical = report.Prints.Count(p => p.Outcome == ReprintOutcome.Identical);
        if (report.IsIdentical && report.Prints.Count == 1)
        {
            return "The print came out the same to the last byte.";
        }

        return report.IsIdentical
            ? $"All {report.Prints.Count} prints came out the same to the last byte."
            : $"{identical} of {report.Prints.Count} prints came out the same to the last byte.";
    }

    private static string Outcome(Reprinted print)
    {
        var words = print.Outcome switch
        {
            ReprintOutcome.Identical => "identical",
            ReprintOutcome.SameAudio => "same audio, other metadata.",
            _ => $"differs{Where(print)}.",
        };
        return print.Cause is null ? words : $"{words} {print.Cause}";
    }

    // Rounded down, so that what is shown does not lie after what it tells of.
    private static string Time(Reprinted print)
    {
        if (print.FirstDifferenceS is not { } seconds)
        {
            return "";
        }

        var ms = (long)Math.Floor(seconds * 1000);
        var time = string.Create(CultureInfo.InvariantCulture, $"{ms / 60000}:{ms / 1000 % 60:00}.{ms % 1000:000}");
        return print.FirstDifferenceBar is { } bar ? string.Create(CultureInfo.InvariantCulture, $" ({time}, bar {Math.Floor(bar):0})") : $" ({time})";
    }

    private static string Where(Reprinted print)
    {
        var frame = print.FirstDifference is { } first ? string.Create(CultureInfo.InvariantCulture, $" from frame {first} on{Time(print)}") : "";
        return print.ResidualDbfs is { } level && double.IsFinite(level)
            ? frame + string.Create(CultureInfo.InvariantCulture, $", by at most {level:0.0} dBFS").Replace('-', '−')
            : frame;
    }
}
