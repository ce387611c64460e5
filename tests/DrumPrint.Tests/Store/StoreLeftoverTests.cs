using DrumPrint.Files;
using DrumPrint.Store;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Store;

public sealed class StoreLeftoverTests : IDisposable
{
    private readonly TestSession _session = new();
    private readonly Kept _kept;

    public StoreLeftoverTests()
    {
        BusySession.Write(_session);
        _kept = new Kept(_session);
        _kept.Print(BusySession.Chain(_session));
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_store_that_a_run_has_left_whole_has_no_leftovers() => Assert.Empty(StoreContents.Leftovers(_kept.Store));

    [Fact]
    public void Files_of_no_entry_are_leftovers_and_clear_removes_those_of_the_stores_own_naming()
    {
        var half = TemporaryName.New();
        Put($"signals/{half}", "half");
        Put("prints/mine.wav.partial", "mine");
        Put("signals/00.signal", "mine");
        Put("probe.1-1", "");
        Put("old/notes.txt", "of another version");

        Assert.Equal(
            [
                new StoreLeftover(Path.Combine("old", "notes.txt"), 18),
                new StoreLeftover(Path.Combine("prints", "mine.wav.partial"), 4),
                new StoreLeftover("probe.1-1", 0),
                new StoreLeftover(Path.Combine("signals", half), 4),
                new StoreLeftover(Path.Combine("signals", "00.signal"), 4),
            ],
            StoreContents.Leftovers(_kept.Store));
        Assert.Equal(9, StoreContents.List(_kept.Store).Count);
        Assert.Equal(10, StoreContents.Clear(_kept.Store).Files);
        Assert.Equal(
            ["00.signal", "CACHEDIR.TAG", "mine.wav.partial", "notes.txt", "probe.1-1", "store.mark"],
            Directory.GetFiles(_kept.Store, "*", SearchOption.AllDirectories).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void What_a_run_is_writing_just_now_is_no_leftover_and_is_left_to_it()
    {
        var alive = Path.Combine(_kept.Store, "signals", "0.signal.1-2.partial");
        using var writing = File.OpenHandle(alive, FileMode.Create, FileAccess.ReadWrite, FileShare.None);

        Assert.Empty(StoreContents.Leftovers(_kept.Store));
        StoreContents.Clear(_kept.Store);

        Assert.True(File.Exists(alive));
    }

    private void Put(string place, string text)
    {
        var path = Path.Combine(_kept.Store, place);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, text);
    }
}
