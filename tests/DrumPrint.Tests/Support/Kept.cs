using DrumPrint.Chains;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Tests.Support;

/// <summary>Prints a session with a store, and holds what comes out against a print from nothing.</summary>
internal sealed class Kept(TestSession session)
{
    public string Store => Path.Combine(session.Folder, ".drumprint");

    /// <summary>What its entries are summed with.</summary>
    public StoreSums Sums => StoreAccess.Find(Store)!.Sums;

    public string[] Signals => Directory.GetFiles(Path.Combine(Store, "signals"), "*.signal");

    public PrintReport Print(Chain chain, PrintOptions? options = null, StoreOptions? store = null) =>
        session.Print(chain, (options ?? new PrintOptions()) with { Profiles = true, Store = store ?? new StoreOptions(Store) });

    /// <summary>Prints with the store and makes sure that every byte is that of a print from nothing.</summary>
    public PrintReport PrintAsCold(Chain chain, PrintOptions? options = null, StoreOptions? store = null)
    {
        var report = Print(chain, options, store);
        AssertAsCold(report, chain, options);
        return report;
    }

    public void AssertAsCold(PrintReport report, Chain chain, PrintOptions? options = null)
    {
        var folder = Path.Combine(session.Folder, "cold");
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }

        var cold = session.Print(chain, (options ?? new PrintOptions()) with { OutFolder = folder });

        Assert.All(Directory.GetFiles(folder), file => Assert.True(File.ReadAllBytes(file).AsSpan().SequenceEqual(File.ReadAllBytes(Path.Combine(report.OutFolder, Path.GetFileName(file)))), Path.GetFileName(file)));
        Assert.Equal(cold.Frames, report.Frames);
        Assert.Equal(cold.TrimDb, report.TrimDb);
        Assert.Equal(cold.NullPeakDbfs, report.NullPeakDbfs);
        Assert.Equal(cold.Findings, report.Findings);
        Assert.Equal(cold.Prints.Select(Figures), report.Prints.Select(Figures));
    }

    public static string[] Rendered(PrintReport report) => [.. report.Prints.Where(p => !p.IsUnchanged).Select(p => $"{p.Number:00}")];

    public static void Flip(string path, double part)
    {
        var bytes = File.ReadAllBytes(path);
        bytes[(int)((bytes.Length - 1) * part)] ^= 0x10;
        File.WriteAllBytes(path, bytes);
    }

    private static string Figures(PrintedFile p) => string.Join(' ',
        [p.FileName, p.PeakDbfs, p.IntegratedLufs, p.RangeLu, p.MaxMomentaryLufs, p.MaxShortTermLufs, p.TailS, p.LatencyFrames, p.AudioSha256, p.FileSha256, .. p.GainReductions]);
}
