using System.Diagnostics;
using System.Globalization;
using DrumPrint.Chains.Reading;
using DrumPrint.Printing;
using DrumPrint.Session;

namespace DrumPrint.Benchmarks.WholeJob;

/// <summary>How time and memory grow with the length of a song and with the number of buses, as tables in Markdown.</summary>
internal static class ScalingTable
{
    private const int RateHz = 48000;
    private const int Buses = 4;

    public static int Run()
    {
        // Once to have everything compiled.
        _ = Measure(1, 0.2);
        Console.WriteLine("| minutes | print s | s per minute | peak MB so far |");
        Console.WriteLine("|---|---|---|---|");
        foreach (var minutes in (int[])[1, 2, 4, 8, 16, 32])
        {
            var seconds = Measure(Buses, minutes);
            Row($"| {minutes} | {seconds:0.00} | {seconds / minutes:0.00} | {PeakMegabytes():0} |");
        }

        Console.WriteLine();
        Console.WriteLine("| buses, 1 minute | print s | s per bus |");
        Console.WriteLine("|---|---|---|");
        foreach (var buses in (int[])[4, 8, 16, 32, 64])
        {
            var seconds = Measure(buses, 1);
            Row($"| {buses} | {seconds:0.00} | {seconds / buses:0.000} |");
        }

        return 0;
    }

    private static double Measure(int buses, double minutes)
    {
        var folder = Directory.CreateTempSubdirectory("drumprint-scaling-").FullName;
        try
        {
            var chain = ChainReader.Read(NoiseSession.Write(folder, buses, minutes, RateHz));
            var start = Stopwatch.GetTimestamp();
            SessionPrinter.Print(chain, new PrintOptions());
            return Stopwatch.GetElapsedTime(start).TotalSeconds;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static double PeakMegabytes() => Process.GetCurrentProcess().PeakWorkingSet64 / 1048576.0;

    private static void Row(FormattableString row) => Console.WriteLine(row.ToString(CultureInfo.InvariantCulture));
}
