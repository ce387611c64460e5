using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;

namespace DrumPrint.Cli.Output;

/// <summary>Shows what was printed: the news, then the figures as a table.</summary>
internal static class ReportScreen
{
    /// <param name="report">What was printed.</param>
    /// <param name="showsAll">Whether the table has the prints that were left as they are too.</param>
    public static void Write(PrintReport report, bool showsAll)
    {
        var console = Terminal.Screen();
        foreach (var line in Summary(report))
        {
            console.Line($"{line}");
        }

        var shown = report.Prints.Where(p => showsAll || !p.IsUnchanged).ToList();
        if (shown.Count > 0)
        {
            Table(shown).Draw(console, ", --json too");
        }

        if (shown.Count < report.Prints.Count)
        {
            console.Line($"The table of {(shown.Count == 0 ? "all" : "the others, too")}: --all");
        }

        if (report.Prints.Any(p => !p.IsUnchanged))
        {
            console.Line(Screen.HearingNote);
        }
    }

    private static ScreenTable Table(IReadOnlyList<PrintedFile> prints)
    {
        var table = new ScreenTable()
            .Text("Print", isWhole: true).Text("Fed by (dB)", 6).Figures("Peak\ndBFS").Figures("True\npeak\ndBTP", 1).Figures("Loudness\nLUFS", 2).Figures("Crest\ndB", 3)
            .Text("Turned down\nmedian/most, dB", 5).Figures("Tail\ns", 4);
        foreach (var print in prints)
        {
            table.Row(
                Visible.Line(string.Create(CultureInfo.InvariantCulture, $"{print.Number:00}_{print.Name}{(print.Kind == PrintKind.Optional ? " (extra)" : "")}")),
                Visible.Line(Feeds(print)),
                Level(print.PeakDbfs),
                Level(print.TruePeakDbtp),
                Level(print.IntegratedLufs),
                double.IsFinite(print.PeakDbfs) ? Level(print.CrestDb) : "–",
                ScreenTable.Lines(Reductions(print)),
                print.TailS.ToString("0.00", CultureInfo.InvariantCulture));
        }

        return table;
    }

    private static IEnumerable<string> Summary(PrintReport report)
    {
        var rate = report.Chain.Song.RateHz;
        yield return string.Create(CultureInfo.InvariantCulture, $"{report.Prints.Count} {(report.Prints.Count == 1 ? "file" : "files")} of {(double)report.Frames / rate:0.000} s ({report.Frames} frames) at {rate} Hz, {Bits(report.Encoding)}, in {report.OutFolder}");
        foreach (var line in ChangeLines.Of(report))
        {
            yield return line;
        }

        if (report.NullPeakDbfs is { } peak)
        {
            yield return double.IsNegativeInfinity(peak)
                ? "Prints add up to the rough exactly."
                : report.AddsUp == false
                ? $"Prints do not add up to the rough: the error peaks at {Level(peak)} dBFS."
                : $"Prints add up to the rough (error {Level(peak)} dBFS).";
        }

        foreach (var note in report.Notes.Concat(report.FolderNotes))
        {
            yield return note;
        }
    }

    private static string Feeds(PrintedFile print) => print.Kind switch
    {
        PrintKind.Rough => "every playing print at unity",
        PrintKind.RoughWithBus => "the rough, through the drum bus",
        PrintKind.Click => "tempo map",
        _ => string.Join(", ", print.Feeds.Select(Feed)),
    };

    private static string Feed(Feed feed)
    {
        var text = string.Create(CultureInfo.InvariantCulture, $"{feed.Source} {Minus(feed.LevelDb.ToString("0.##", CultureInfo.InvariantCulture))}");
        return feed.IsInverted ? text + " inverted" : text;
    }

    // A line for each bus, the print's own first and without its name.
    private static IEnumerable<string> Reductions(PrintedFile print) => print.GainReductions.GroupBy(r => r.Bus).Select(b =>
        $"{(b.Key is null ? "" : $"{b.Key}: ")}{string.Join(", ", b.Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.Processor} {r.MedianDb:0.0}/{r.LargestDb:0.0}")))}");

    private static string Level(double db) => double.IsFinite(db) ? Minus(db.ToString("0.0", CultureInfo.InvariantCulture)) : "silent";

    private static string Minus(string number) => number.Replace('-', '−');

    private static string Bits(SampleEncoding encoding) => encoding switch
    {
        SampleEncoding.Pcm16 => "16 bit",
        SampleEncoding.Pcm24 => "24 bit",
        SampleEncoding.Float32 => "32-bit float",
        _ => encoding.ToString(),
    };
}
