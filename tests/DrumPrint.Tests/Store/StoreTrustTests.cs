using DrumPrint.Files;
using DrumPrint.Store;
using DrumPrint.Tests.Files;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Store;

/// <summary>A session comes by mail with whatever lies in it. A store that somebody else wrote is not believed, and nothing that
/// is not the store's own is deleted.</summary>
public sealed class StoreTrustTests : IDisposable
{
    private readonly TestSession _session = new();
    private readonly Kept _kept;

    public StoreTrustTests()
    {
        BusySession.Write(_session);
        _kept = new Kept(_session);
        _kept.Print(BusySession.Chain(_session));
    }

    private string Aside => Path.Combine(_session.Folder, StoreAccess.AsideName);

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_store_of_another_user_is_set_aside_whole_and_told_and_nothing_of_it_is_used()
    {
        var files = Directory.GetFiles(_kept.Store, "*", SearchOption.AllDirectories).Length;
        Mark(new byte[32]);
        Directory.Delete(_session.Prints, recursive: true);

        var report = _kept.PrintAsCold(BusySession.Chain(_session));

        Assert.Contains("was not made by your DrumPrint", Assert.Single(report.StoreNotes), StringComparison.Ordinal);
        Assert.Equal(files, Directory.GetFiles(Aside, "*", SearchOption.AllDirectories).Length);
        Assert.Equal(6, Kept.Rendered(report).Length);
        Assert.DoesNotContain(report.Profile!.Steps, n => n.Name.EndsWith("(kept)", StringComparison.Ordinal));
    }

    [Fact]
    public void A_store_without_a_mark_is_set_aside()
    {
        File.Delete(Path.Combine(_kept.Store, StoreMark.FileName));

        Assert.Single(_kept.PrintAsCold(BusySession.Chain(_session)).StoreNotes);
        Assert.True(Directory.Exists(Aside));
        Assert.Empty(_kept.Print(BusySession.Chain(_session)).StoreNotes);
    }

    [Fact]
    public void A_second_foreign_store_is_set_aside_beside_the_first()
    {
        Mark(new byte[32]);
        _kept.Print(BusySession.Chain(_session));
        Mark(new byte[32]);

        _kept.Print(BusySession.Chain(_session));

        Assert.True(Directory.Exists(Aside));
        Assert.True(Directory.Exists(Aside + "_2"));
    }

    [Fact]
    public void An_entry_summed_with_another_key_is_damaged()
    {
        var others = new StoreSums(new byte[32], "other");
        var key = StoreContents.List(_kept.Store).Single(e => e.Name == "01 A").Key;
        var path = StoreFiles.Memo(_kept.Store, key);
        File.WriteAllBytes(path, PrintMemoText.Of(others, key, PrintMemoText.Parse(_kept.Sums, key, File.ReadAllBytes(path))!));

        Assert.Equal(["01"], Kept.Rendered(_kept.PrintAsCold(BusySession.Chain(_session))));
    }

    [Fact]
    public void A_store_moves_with_its_session()
    {
        var moved = Path.Combine(_session.Folder, "moved");
        Directory.Move(_kept.Store, moved);

        Assert.Empty(StoreContents.Verify(moved).Dropped);
        Assert.Equal(9, StoreContents.List(moved).Count);
    }

    [Fact]
    public void A_linked_store_is_refused_by_name_and_what_it_leads_to_stays()
    {
        var elsewhere = Path.Combine(_session.Folder, "elsewhere");
        Directory.Move(_kept.Store, elsewhere);
        File.WriteAllText(Path.Combine(elsewhere, "signals", TemporaryName.New()), "mine");
        var before = Names(elsewhere);
        if (!Links.Make(_kept.Store, elsewhere))
        {
            return;
        }

        var refused = Assert.Throws<UsageException>(() => StoreContents.Clear(_kept.Store));
        var report = _kept.PrintAsCold(BusySession.Chain(_session));

        Assert.Contains($"{_kept.Store} is a link", refused.Message, StringComparison.Ordinal);
        Assert.Contains($"{_kept.Store} is a link", Assert.Single(report.StoreNotes), StringComparison.Ordinal);
        Assert.Equal(before, Names(elsewhere));
    }

    [Theory]
    [InlineData("signals")]
    [InlineData("prints")]
    public void A_linked_folder_in_a_store_is_refused_by_name_and_what_it_leads_to_stays(string name)
    {
        var elsewhere = Path.Combine(_session.Folder, "elsewhere");
        Directory.Move(Path.Combine(_kept.Store, name), elsewhere);
        File.WriteAllText(Path.Combine(elsewhere, TemporaryName.New()), "mine");
        var before = Names(elsewhere);
        if (!Links.Make(Path.Combine(_kept.Store, name), elsewhere))
        {
            return;
        }

        Assert.Throws<UsageException>(() => StoreContents.Clear(_kept.Store));
        Assert.Throws<UsageException>(() => StoreContents.Verify(_kept.Store));
        Assert.Contains("is a link", Assert.Single(_kept.PrintAsCold(BusySession.Chain(_session)).StoreNotes), StringComparison.Ordinal);
        Assert.Equal(before, Names(elsewhere));
    }

    [Fact]
    public void A_linked_entry_is_not_used_and_what_it_leads_to_stays()
    {
        var mine = Path.Combine(_session.Folder, "mine.signal");
        File.Move(_kept.Signals[0], mine);
        if (!Links.Make(_kept.Signals.Length > 0 ? Path.Combine(_kept.Store, "signals", new string('a', 64) + ".signal") : "", mine))
        {
            return;
        }

        Assert.Equal(8, StoreContents.List(_kept.Store).Count);
        StoreContents.Clear(_kept.Store);
        Assert.True(File.Exists(mine));
    }

    [Fact]
    public void A_folder_that_is_no_store_is_neither_listed_nor_cleared()
    {
        File.Delete(Path.Combine(_kept.Store, StoreMark.FileName));
        var before = Names(_kept.Store);

        Assert.Throws<UsageException>(() => StoreContents.List(_kept.Store));
        Assert.Throws<UsageException>(() => StoreContents.Clear(_kept.Store));
        Assert.Equal(before, Names(_kept.Store));
    }

    [Theory]
    [InlineData(-1, 100, 0, 0)]
    [InlineData(0, 100, 0, 0)]
    [InlineData(3, 100, 0, 0)]
    [InlineData(1, -100, 0, 0)]
    [InlineData(1, long.MaxValue, 0, 0)]
    [InlineData(1, 100, -1, 0)]
    [InlineData(1, 100, 0, -1)]
    public void A_header_that_no_signal_has_is_refused(int channels, long frames, long latency, long end) =>
        Assert.Throws<FormatException>(() => SignalHeader.Parse(new SignalHeader("key", "name", channels, frames, latency, end).ToBytes()));

    [Fact]
    public void The_secret_is_its_owners_alone()
    {
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(UserSecret.DefaultPath!));
        }

        Assert.Equal(UserSecret.ReadOrMake(UserSecret.DefaultPath!, FileSteps.Plain), UserSecret.ReadOrMake(UserSecret.DefaultPath!, FileSteps.Plain));
    }

    // As another user would have marked it.
    private void Mark(byte[] secret)
    {
        File.Delete(Path.Combine(_kept.Store, StoreMark.FileName));
        StoreMark.Write(_kept.Store, secret, FileSteps.Plain);
    }

    private static string[] Names(string folder) => [.. Directory.GetFiles(folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
}
