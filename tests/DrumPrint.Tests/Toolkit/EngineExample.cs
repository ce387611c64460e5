using DrumPrint.Chains.Reading;
using DrumPrint.Measuring;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Reprinting;
using DrumPrint.Session;

namespace DrumPrint.Tests.Toolkit;

/// <summary>The examples of the engine in the guide, as they stand there; a test compares the lines.</summary>
internal static class EngineExample
{
    public static (PrintReport Report, IReadOnlyList<string> Files) Printing(string path, string folder)
    {
        var chain = ChainReader.Read(path);
        var report = SessionPrinter.Print(chain, new PrintOptions { OutFolder = folder });
        var files = report.Prints.Select(print => print.FileName);
        return (report, [.. files]);
    }

    public static bool PrintingAgain(PrintReport report)
    {
        var again = Reprinter.Reprint(report.OutFolder, new ReprintOptions());
        var same = again.IsIdentical;
        return same;
    }

    public static double? Measuring(string file)
    {
        var measured = FileMeter.Measure(file);
        var loudness = measured.Sound.IntegratedLufs;
        return loudness;
    }
}
