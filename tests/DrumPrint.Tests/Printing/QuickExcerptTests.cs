using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Store;
using DrumPrint.Tests.Live;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>An excerpt that begins in mid-song, held against the slices of the prints.</summary>
[Collection(PrintedDemo.Group)]
public sealed class QuickExcerptTests(PrintedDemo demo) : IDisposable
{
    // The bar of the bench after a jump.
    private const double BoundDbfs = -100;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-test-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData(12.0371)]
    [InlineData(16.5)]
    public void Every_print_is_what_the_file_holds(double seconds)
    {
        var report = Print(new PrintOptions { FromS = seconds, ToS = seconds + 2 });

        Assert.Contains(report.Notes, n => n.StartsWith("Begun ", StringComparison.Ordinal) && n.EndsWith(" s before the stretch: differs from the print by less than −100 dBFS (exact: --exact).", StringComparison.Ordinal));
        Same(report, BoundDbfs);
    }

    [Fact]
    public void Up_to_the_end_it_ends_where_the_files_do()
    {
        var report = Print(new PrintOptions { FromS = 16.5 });

        Assert.Equal(demo.Report.Frames - report.StartFrame, report.Frames);
        Same(report, BoundDbfs);
    }

    [Fact]
    public void Asked_to_be_exact_it_is_the_slice_to_the_last_bit()
    {
        Assert.Contains("Begun at the start of the song: exact.", demo.Exact.Notes);
        Same(demo.Exact, double.NegativeInfinity);
    }

    [Fact]
    public void Near_the_start_it_is_exact_too()
    {
        var report = Print(new PrintOptions { FromS = 0.5, ToS = 1.5 });

        Assert.Contains("Begun at the start of the song: exact.", report.Notes);
        Same(report, double.NegativeInfinity);
    }

    [Fact]
    public void Threads_blocks_and_kept_signals_change_no_byte()
    {
        var stretch = new PrintOptions { FromS = 16.5, ToS = 17.25 };
        var store = new StoreOptions(Path.Combine(_folder.FullName, "store"));
        SessionPrinter.Print(demo.Chain, new PrintOptions { OutFolder = Path.Combine(_folder.FullName, "prints"), Only = ["Impact", "RoughPreBus"], Store = store });
        var kept = Directory.GetFiles(store.Folder, "*", SearchOption.AllDirectories);
        Assert.Contains(kept, f => f.EndsWith(".signal", StringComparison.Ordinal));

        var first = Print(stretch with { Threads = 1 });
        PrintReport[] others =
        [
            Print(stretch with { Threads = 2, BlockFrames = 480 }),
            Print(stretch with { Threads = 8, BlockFrames = 1000 }),
            Print(stretch with { Threads = 2, Store = store }),
        ];

        Assert.All(others, o => Assert.Equal(first.Prints.Select(p => p.FileSha256), o.Prints.Select(p => p.FileSha256)));
        Assert.Equal(kept, Directory.GetFiles(store.Folder, "*", SearchOption.AllDirectories));
    }

    [Fact]
    public void What_is_told_of_the_stretch_is_told_of_nothing_before_it()
    {
        var quick = Print(new PrintOptions { FromS = 16.5371, ToS = 18 });

        foreach (var (a, b) in demo.Exact.Prints.Zip(quick.Prints))
        {
            Assert.Equal(a.PeakDbfs, b.PeakDbfs, 3);
            Assert.Equal(a.GainReductions.Select(g => (g.Processor, g.Bus)), b.GainReductions.Select(g => (g.Processor, g.Bus)));
            Assert.All(a.GainReductions.Zip(b.GainReductions), g => Assert.Equal(g.First.LargestDb, g.Second.LargestDb, 1.0));
        }
    }

    private PrintReport Print(PrintOptions options) =>
        SessionPrinter.Print(demo.Chain, options with { OutFolder = Path.Combine(_folder.FullName, Guid.NewGuid().ToString("N")), Encoding = SampleEncoding.Float32 });

    private void Same(PrintReport report, double boundDbfs)
    {
        Assert.Equal(demo.Report.Prints.Select(p => p.Number), report.Prints.Select(p => p.Number));
        foreach (var print in report.Prints)
        {
            var whole = demo.Print(print.Number);
            var part = TestSession.ReadFile(Path.Combine(report.OutFolder, print.FileName));
            Assert.Equal(whole.Length, part.Length);
            for (var channel = 0; channel < part.Length; channel++)
            {
                Assert.Equal(report.Frames, part[channel].Length);
                var from = report.StartFrame;
                var most = Enumerable.Range(0, part[channel].Length).Max(n => Math.Abs(part[channel][n] - whole[channel][from + n]));
                Assert.True(Decibels.FromGain(most) <= boundDbfs, $"{print.FileName}: {Decibels.FromGain(most):0.0} dBFS");
            }
        }
    }
}
