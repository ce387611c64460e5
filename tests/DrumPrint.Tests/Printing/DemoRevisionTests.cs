using DrumPrint.Chains.Reading;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Demo;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>Revisions of the demo session, each on top of the one before, each held against a print from nothing.</summary>
public sealed class DemoRevisionTests : IDisposable
{
    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Each_revision_of_the_demo_renders_what_it_reaches_and_nothing_else()
    {
        var kept = new Kept(_session);
        var path = WrittenDemo.Short(_session.Folder).Chain;
        Assert.Equal(18, Kept.Rendered(Print(path)).Length);

        Edit(path, "\"kick sub\": -5", "\"kick sub\": -7");
        var kick = Print(path);
        Assert.Equal(["01", "12", "90", "91"], Kept.Rendered(kick));
        kept.AssertAsCold(kick, ChainReader.Read(path));
        Assert.All(kick.Prints.Where(p => !p.IsUnchanged), p => Assert.Equal(["kick: kick sub level −5 → −7 dB (2 dB down)"], p.Because));

        Edit(path, "\"snare bottom\": -8.5", "\"snare bottom\": -10");
        var snare = Print(path);
        Assert.Equal(["03", "04", "10", "12", "13", "90", "91"], Kept.Rendered(snare));
        kept.AssertAsCold(snare, ChainReader.Read(path));

        Edit(path, "{ \"threshold_db\": -16, \"ratio\": 2,", "{ \"threshold_db\": -18, \"ratio\": 2,");
        var bus = Print(path);
        Assert.Equal(["91"], Kept.Rendered(bus));
        Assert.Equal(["drum bus: compressor threshold −16 → −18 dB"], bus.Prints.Single(p => p.Number == 91).Because);

        kept.AssertAsCold(bus, ChainReader.Read(path));
    }

    private static void Edit(string path, string from, string to)
    {
        var text = File.ReadAllText(path);
        Assert.Equal(2, text.Split(from).Length);
        File.WriteAllText(path, text.Replace(from, to, StringComparison.Ordinal));
    }

    private static PrintReport Print(string path) => SessionPrinter.Print(ChainReader.Read(path), new PrintOptions { Store = StoreOptions.Beside(path) });
}
