using System.Diagnostics;
using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;

namespace DrumPrint.Benchmarks.WholeJob;

/// <summary>Times printing a session against its copy floor, run by run in turn, and prints a table in Markdown.</summary>
internal static class WholeJobTable
{
    private const int Runs = 5;

    /// <param name="arguments">The chain file; then, if given, numbers of threads.</param>
    public static int Run(string[] arguments)
    {
        if (arguments.Length == 0)
        {
            Console.Error.WriteLine("whole-job CHAIN [THREADS …]: times printing a chain against copying its files.");
            return 2;
        }

        var chain = ChainReader.Read(arguments[0]);
        var scratch = Directory.CreateTempSubdirectory("drumprint-bench-").FullName;
        try
        {
            Console.WriteLine("| threads | print s | × real time | copy floor s | print / floor | peak MB |");
            Console.WriteLine("|---|---|---|---|---|---|");
            int[] threads = arguments.Length > 1 ? [.. arguments[1..].Select(a => int.Parse(a, CultureInfo.InvariantCulture))] : [1, Environment.ProcessorCount];
            foreach (var count in threads)
            {
                Row(chain, scratch, count);
            }
        }
        finally
        {
            Directory.Delete(scratch, recursive: true);
        }

        return 0;
    }

    private static void Row(Chain chain, string scratch, int threads)
    {
        var report = Print(chain, scratch, threads);
        var prints = new List<double>();
        var floors = new List<double>();
        for (var run = 0; run < Runs; run++)
        {
            prints.Add(Seconds(() => Print(chain, scratch, threads)));
            floors.Add(Seconds(() => CopyFloor.Run(chain, report, Path.Combine(scratch, "floor"), threads)));
        }

        var print = Median(prints);
        var ratio = Median([.. prints.Zip(floors, (p, f) => p / f)]);
        var song = (double)report.Frames / chain.Song.RateHz;
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"| {threads} | {print:0.00} | {song / print:0.0} | {Median(floors):0.00} | {ratio:0.0} | {Process.GetCurrentProcess().PeakWorkingSet64 / 1048576.0:0} |"));
    }

    private static PrintReport Print(Chain chain, string scratch, int threads) =>
        SessionPrinter.Print(chain, new PrintOptions { Threads = threads, OutFolder = Path.Combine(scratch, "prints") });

    private static double Seconds(Action action)
    {
        var start = Stopwatch.GetTimestamp();
        action();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    private static double Median(List<double> values)
    {
        values.Sort();
        return values[values.Count / 2];
    }
}
