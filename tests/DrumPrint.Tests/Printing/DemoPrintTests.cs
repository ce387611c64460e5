using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Demo;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>The demo session as `demo` writes it; made once, since it takes seconds.</summary>
public sealed class DemoFixture : IDisposable
{
    private readonly TestSession _session = new();
    private PrintReport? _one;

    public DemoFixture() => Chain = ChainReader.Read(WrittenDemo.CopyTo(_session.Folder).Chain);

    public Chain Chain { get; }

    public string Folder => _session.Folder;

    /// <summary>Printed as the command does by default, on one thread.</summary>
    internal PrintReport One => _one ??= Print("one", new PrintOptions { Threads = 1 });

    internal PrintReport Print(string folder, PrintOptions options) =>
        SessionPrinter.Print(Chain, options with { OutFolder = Path.Combine(_session.Folder, folder) });

    public void Dispose() => _session.Dispose();
}

public sealed class DemoPrintTests(DemoFixture demo) : IClassFixture<DemoFixture>
{
    [Fact]
    public void Threads_and_blocks_never_change_a_byte_of_the_demo()
    {
        var one = demo.One;
        var two = demo.Print("two", new PrintOptions { Threads = 2, BlockFrames = 1000 });
        var eight = demo.Print("eight", new PrintOptions { Threads = 8, BlockFrames = 16384 });

        Assert.Equal(18, one.Prints.Count);
        Assert.Equal(one.Prints.Select(p => p.FileSha256), two.Prints.Select(p => p.FileSha256));
        Assert.Equal(one.Prints.Select(p => p.FileSha256), eight.Prints.Select(p => p.FileSha256));
    }

    [Fact]
    public void The_samples_of_the_prints_are_the_same_on_every_machine()
    {
        var expected = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Demo", "SlowFerry.prints.sha256"));

        var actual = string.Concat(demo.One.Prints.Select(p => $"{p.AudioSha256}  {p.FileName}\n"));
        Goldens.Rewrite("Demo/SlowFerry.prints.sha256", actual);

        Assert.True(expected.ReplaceLineEndings("\n") == actual, actual);
    }

    // Own bars. One is half the 12 dB that a compressor working at 12 to 16 dB can take at most from a hit, for it lets go
    // between hits. The other is a tenth of a loudness unit, the smallest step in which levels are set.
    [Fact]
    public void The_impact_flattens_hits_and_the_drum_bus_is_as_loud_out_as_in()
    {
        var impact = demo.Chain.Buses.Single(b => b.Name == "impact");
        var unsqueezed = demo.Chain with { Buses = [.. demo.Chain.Buses.Select(b => b == impact ? b with { Stages = [] } : b)] };
        var before = SessionPrinter.Print(unsqueezed, new PrintOptions { OutFolder = Path.Combine(demo.Folder, "unsqueezed"), Only = ["Impact"] }).Prints.Single();

        Assert.InRange(before.CrestDb - Print("Impact").CrestDb, 6, 16);
        Assert.Equal(Print("RoughPreBus").IntegratedLufs, Print("RoughWithBus").IntegratedLufs, 0.1);
    }

    [Fact]
    public void The_fourteen_prints_of_24_bit_read_from_disk_rebuild_the_rough() => Rebuild.Holds(demo.One, SampleEncoding.Pcm24, -120);

    private PrintedFile Print(string name) => demo.One.Prints.Single(p => p.Name == name);
}
