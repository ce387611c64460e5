using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Reprinting;
using DrumPrint.Session;

namespace DrumPrint.SelfTest;

/// <summary>Prints a small built-in session that uses every processor, and holds the hashes of its samples against those kept with the
/// program.</summary>
/// <remarks>Three runs: as users print, on one thread with blocks of another size, and once more from what the prints say of
/// themselves.</remarks>
public static class SelfTestRun
{
    // No power of two, and no divisor of anything: block borders fall where they never fall otherwise.
    private const int OddBlockFrames = 1009;

    private const string SumsFile = "selftest.sha256";

    /// <summary>Runs the test in a temporary folder.</summary>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops it; the folder goes.</param>
    /// <exception cref="AudioFileException">The temporary folder cannot be written to.</exception>
    /// <exception cref="OperationCanceledException">The test was stopped.</exception>
    public static SelfTestReport Run(IProgress<PrintProgress>? progress = null, CancellationToken cancel = default)
    {
        var kept = Kept();
        using var session = SelfTestSession.Make();
        var threads = Environment.ProcessorCount;
        progress?.Report(new PrintProgress("Testing this machine", 0));
        var usual = Print(session, "usual", new PrintOptions(), cancel);
        progress?.Report(new PrintProgress("Testing this machine", 0.3));
        var odd = Print(session, "odd", new PrintOptions { Threads = 1, BlockFrames = OddBlockFrames }, cancel);
        progress?.Report(new PrintProgress("Testing this machine", 0.7));
        var again = Reprinter.Reprint(usual.OutFolder, new ReprintOptions(), progress: null, cancel);
        progress?.Report(new PrintProgress("Testing this machine", 1));
        var other = odd.Prints.ToDictionary(p => p.FileName, p => p.AudioSha256, StringComparer.Ordinal);
        return new SelfTestReport(
            [.. usual.Prints.Select(p => new SelfTestSound(
                p.FileName,
                Processors(session.Chain, p.Number),
                p.AudioSha256,
                kept.GetValueOrDefault(p.FileName) == p.AudioSha256,
                other.GetValueOrDefault(p.FileName) == p.AudioSha256))],
            threads,
            again.IsIdentical);
    }

    /// <summary>The hashes kept with the program, in the form of <c>sha256sum</c>.</summary>
    /// <param name="report">What a run made.</param>
    internal static string Sums(SelfTestReport report) => string.Concat(report.Sounds.Select(s => $"{s.AudioSha256}  {s.FileName}\n"));

    private static IReadOnlyList<string> Processors(Chain chain, int number)
    {
        var bus = chain.Prints.FirstOrDefault(p => p.Number == number)?.Bus;
        return [.. chain.Buses.Where(b => b.Name == bus).SelectMany(b => b.Stages).Select(s => s.Definition.Key)];
    }

    private static PrintReport Print(SelfTestSession session, string folder, PrintOptions options, CancellationToken cancel) =>
        SessionPrinter.Print(session.Chain, options with { OutFolder = session.Prints(folder) }, progress: null, cancel);

    private static Dictionary<string, string> Kept() => SelfTestSession.Text(SumsFile)
        .Split('\n', StringSplitOptions.RemoveEmptyEntries)
        .Select(line => line.Split("  "))
        .ToDictionary(pair => pair[1].Trim(), pair => pair[0], StringComparer.Ordinal);
}
