using DrumPrint.Chains;
using DrumPrint.Session;
using DrumPrint.Store;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Store;

/// <summary>Figures in the store that are sound in form and wrong in substance.</summary>
public sealed class StoreContradictionTests : IDisposable
{
    private const string Told = "Rendered again from the same chain and raw files, and not as the store remembered: 01 A. What it remembered was dropped.";

    private readonly TestSession _session = new();
    private readonly Kept _kept;

    public StoreContradictionTests()
    {
        BusySession.Write(_session);
        _kept = new Kept(_session);
        _kept.Print(Chain);
    }

    private Chain Chain => BusySession.Chain(_session);

    public void Dispose() => _session.Dispose();

    [Theory]
    [InlineData(1, 0)]
    [InlineData(0.9, 0)]
    [InlineData(1, 1)]
    public void Remembered_figures_that_a_render_contradicts_are_dropped_and_told_and_steer_nothing(double peak, long quiet)
    {
        Tamper(m => m with { Peak = m.Peak * peak, QuietFrom = m.QuietFrom + quiet, LatencyFrames = m.LatencyFrames + (peak == 1 && quiet == 0 ? 1 : 0) });
        File.Delete(Path.Combine(_session.Prints, "01_A_Test_v1.wav"));

        var report = _kept.PrintAsCold(Chain);

        Assert.StartsWith(Told, Assert.Single(report.StoreNotes), StringComparison.Ordinal);
        Assert.Empty(_kept.PrintAsCold(Chain).StoreNotes);
        Assert.Empty(Kept.Rendered(_kept.Print(Chain)));
    }

    [Fact]
    public void A_remembered_hash_that_a_render_contradicts_is_dropped_and_told()
    {
        Tamper(m => m with { Written = m.Written! with { AudioSha256 = new string('0', 64), FileSha256 = new string('0', 64) } });

        var report = _kept.PrintAsCold(Chain);

        Assert.StartsWith(Told, Assert.Single(report.StoreNotes), StringComparison.Ordinal);
        Assert.DoesNotContain(StoreContents.List(_kept.Store), e => e.Name == "01 A");
        Assert.Empty(_kept.PrintAsCold(Chain).StoreNotes);
    }

    [Fact]
    public void A_run_that_renders_everything_holds_it_against_what_is_remembered()
    {
        Tamper(m => m with { Peak = m.Peak * 0.9 });

        var report = _kept.PrintAsCold(Chain, store: new StoreOptions(_kept.Store) { Anew = true });

        Assert.StartsWith(Told, Assert.Single(report.StoreNotes), StringComparison.Ordinal);
    }

    [Fact]
    public void A_render_that_comes_out_as_remembered_says_nothing()
    {
        File.Delete(Path.Combine(_session.Prints, "01_A_Test_v1.wav"));

        Assert.Empty(_kept.PrintAsCold(Chain).StoreNotes);
        Assert.Empty(_kept.PrintAsCold(Chain, store: new StoreOptions(_kept.Store) { Anew = true }).StoreNotes);
    }

    // Writes other figures of print 1 under its key, with the hash that goes with them.
    private void Tamper(Func<PrintMemo, PrintMemo> change)
    {
        var key = StoreContents.List(_kept.Store).Single(e => e.Name == "01 A").Key;
        var path = StoreFiles.Memo(_kept.Store, key);
        File.WriteAllBytes(path, PrintMemoText.Of(_kept.Sums, key, change(PrintMemoText.Parse(_kept.Sums, key, File.ReadAllBytes(path))!)));
    }
}
