using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Store;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Store;

public sealed class StoreDamageTests : IDisposable
{
    private readonly TestSession _session = new();
    private readonly Kept _kept;

    public StoreDamageTests()
    {
        BusySession.Write(_session);
        _kept = new Kept(_session);
        _kept.Print(BusySession.Chain(_session));
    }

    // Print 1 at another level: all buses are wanted for the rough, none of them is computed again.
    private Chain Revised => _session.Chain(BusySession.Body.Replace("\"name\": \"A\",", "\"name\": \"A\", \"level_db\": -3,", StringComparison.Ordinal), BusySession.Song);

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Whole_entries_are_used()
    {
        var report = _kept.PrintAsCold(Revised);

        Assert.Equal(2, report.Profile!.Steps.Count(n => n.Name.EndsWith("(kept)", StringComparison.Ordinal)));
        Assert.Empty(report.StoreNotes);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.0005)]
    [InlineData(0.5)]
    [InlineData(0.9)]
    [InlineData(1)]
    public void One_bit_of_an_entry_is_seen_and_the_entry_made_again(double place)
    {
        Assert.All(_kept.Signals, s => Kept.Flip(s, place));

        var report = _kept.PrintAsCold(Revised);
        var check = StoreContents.Verify(_kept.Store);

        Assert.StartsWith("Damaged entries of the store were dropped", Assert.Single(report.StoreNotes), StringComparison.Ordinal);
        Assert.Equal(["01", "90", "91"], Kept.Rendered(report));
        Assert.Single(check.Dropped); // the old rough, which nobody asked for
    }

    [Theory]
    [InlineData(0)]
    [InlineData(40)]
    [InlineData(5000)]
    public void A_cut_entry_is_seen_and_made_again(int left)
    {
        foreach (var signal in _kept.Signals)
        {
            using var file = File.OpenWrite(signal);
            file.SetLength(left);
        }

        Assert.Single(_kept.PrintAsCold(Revised).StoreNotes);
    }

    [Fact]
    public void A_longer_entry_and_a_swapped_one_are_made_again()
    {
        var signals = _kept.Signals;
        File.AppendAllText(signals[0], "more");
        File.Copy(signals[2], signals[1], overwrite: true);

        var report = _kept.PrintAsCold(Revised);

        Assert.StartsWith("Damaged entries of the store were dropped", Assert.Single(report.StoreNotes), StringComparison.Ordinal);
    }

    [Fact]
    public void Figures_of_another_print_under_this_one_s_name_are_made_again()
    {
        var figures = Directory.GetFiles(Path.Combine(_kept.Store, "prints")).Order(StringComparer.Ordinal).ToList();
        File.Copy(figures[0], figures[1], overwrite: true);
        File.Copy(figures[2], figures[3], overwrite: true);

        var report = _kept.PrintAsCold(BusySession.Chain(_session));

        Assert.Equal(2, Kept.Rendered(report).Length);
    }

    [Fact]
    public void Figures_that_were_tampered_with_are_dropped_and_the_print_is_rendered()
    {
        Assert.All(Directory.GetFiles(Path.Combine(_kept.Store, "prints")), f => Kept.Flip(f, 0.6));

        var report = _kept.PrintAsCold(BusySession.Chain(_session));

        Assert.Equal(6, Kept.Rendered(report).Length);
        Assert.All(report.Prints, p => Assert.StartsWith("nothing changed in the chain or the raw files, but .drumprint has no note of this print", Assert.Single(p.Because), StringComparison.Ordinal));
        Assert.Empty(Kept.Rendered(_kept.Print(BusySession.Chain(_session))));
    }

    [Theory]
    [InlineData(0.0001)]
    [InlineData(0.3)]
    [InlineData(0.95)]
    public void One_bit_of_a_print_makes_that_print_again_and_no_other(double place)
    {
        Kept.Flip(Path.Combine(_session.Prints, "03_Wet_Test_v1.wav"), place);

        var report = _kept.PrintAsCold(BusySession.Chain(_session));

        Assert.Equal(["03"], Kept.Rendered(report));
        Assert.Contains("damaged", Assert.Single(report.Prints.Single(p => p.Name == "Wet").Because), StringComparison.Ordinal);
    }

    [Fact]
    public void A_cut_print_a_missing_one_and_a_missing_ticket_are_made_again()
    {
        using (var file = File.OpenWrite(Path.Combine(_session.Prints, "01_A_Test_v1.wav")))
        {
            file.SetLength(file.Length - 3);
        }

        File.Delete(Path.Combine(_session.Prints, "90_RoughPreBus_Test_v1.wav"));
        File.Delete(Path.Combine(_session.Prints, "Test_v1.ticket.json"));

        var report = _kept.PrintAsCold(BusySession.Chain(_session));

        Assert.Equal(["01", "90"], Kept.Rendered(report));
    }

    [Fact]
    public void A_store_that_was_cleared_is_filled_again()
    {
        var (files, bytes) = StoreContents.Clear(_kept.Store);
        Assert.Empty(StoreContents.List(_kept.Store));

        var report = _kept.PrintAsCold(BusySession.Chain(_session));

        Assert.Equal(9, files);
        Assert.True(bytes > 1_000_000);
        Assert.Equal(6, Kept.Rendered(report).Length);
        Assert.Equal(9, StoreContents.List(_kept.Store).Count);
    }

    [Fact]
    public void Leftovers_of_a_killed_run_are_cleared_away_and_those_of_a_running_one_are_not()
    {
        var dead = Path.Combine(_kept.Store, "signals", TemporaryName.New());
        var alive = Path.Combine(_kept.Store, "signals", TemporaryName.New());
        File.WriteAllText(dead, "half");
        using var writing = File.OpenHandle(alive, FileMode.Create, FileAccess.ReadWrite, FileShare.None);

        _kept.PrintAsCold(Revised);

        Assert.False(File.Exists(dead));
        Assert.True(File.Exists(alive));
    }

    [Fact]
    public void Without_a_usable_store_everything_is_printed_and_the_reason_said()
    {
        Directory.Delete(_kept.Store, recursive: true);
        File.WriteAllText(_kept.Store, "in the way");

        var report = _kept.PrintAsCold(Revised);

        Assert.Contains("could not be used", Assert.Single(report.StoreNotes), StringComparison.Ordinal);
        Assert.Equal(6, Kept.Rendered(report).Length);
        Assert.False(report.LookedForChanges);
    }

    [Fact]
    public void A_store_that_may_not_be_written_is_said_and_everything_printed()
    {
        if (OperatingSystem.IsWindows() || Environment.UserName == "root")
        {
            return; // permissions do not bind there
        }

        File.SetUnixFileMode(_kept.Store, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        try
        {
            Assert.Contains("could not be used", Assert.Single(_kept.PrintAsCold(Revised).StoreNotes), StringComparison.Ordinal);
        }
        finally
        {
            File.SetUnixFileMode(_kept.Store, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }

    [Fact]
    public void Runs_at_the_same_time_share_a_store_and_both_give_the_bytes_of_a_print_from_nothing()
    {
        StoreContents.Clear(_kept.Store);
        Chain[] chains = [BusySession.Chain(_session), Revised, BusySession.Chain(_session)];
        var reports = new PrintReport[chains.Length];

        Parallel.For(0, chains.Length, new ParallelOptions { MaxDegreeOfParallelism = chains.Length }, n =>
            reports[n] = _kept.Print(chains[n], new PrintOptions { OutFolder = Path.Combine(_session.Folder, $"out {n}") }));

        for (var n = 0; n < chains.Length; n++)
        {
            _kept.AssertAsCold(reports[n], chains[n]);
        }

        Assert.Empty(StoreContents.Verify(_kept.Store).Dropped);
        Assert.Empty(Directory.GetFiles(_kept.Store, "*.partial", SearchOption.AllDirectories));
    }

    [Fact]
    public void The_least_recently_used_goes_first_when_the_store_is_full()
    {
        var sizes = StoreContents.List(_kept.Store);
        var cap = sizes.Sum(e => e.Bytes) + 4096;
        var wet = sizes.Single(e => e.Name == "wet").Key;
        var a = sizes.Single(e => e.Name == "bus a").Key;
        foreach (var file in _kept.Signals)
        {
            File.SetLastWriteTimeUtc(file, DateTime.UnixEpoch.AddYears(40));
        }

        // Bus a is computed again, so its old signal is the one nobody has used.
        var revised = _session.Chain(BusySession.Body.Replace("\"drive_db\": 3", "\"drive_db\": 5", StringComparison.Ordinal), BusySession.Song);
        _kept.PrintAsCold(revised, store: new StoreOptions(_kept.Store) { CapBytes = cap });

        var keys = StoreContents.List(_kept.Store).Select(e => e.Key).ToHashSet();
        Assert.Contains(wet, keys);
        Assert.DoesNotContain(a, keys);
        Assert.True(StoreContents.List(_kept.Store).Sum(e => e.Bytes) <= cap);
    }

    [Fact]
    public void A_store_too_small_for_a_signal_says_so_and_the_print_is_whole()
    {
        StoreContents.Clear(_kept.Store);

        var report = _kept.PrintAsCold(Revised, store: new StoreOptions(_kept.Store) { CapBytes = 300_000 });

        Assert.Contains("too small", Assert.Single(report.StoreNotes), StringComparison.Ordinal);
        Assert.True(StoreContents.List(_kept.Store).Sum(e => e.Bytes) <= 300_000);
    }

    [Fact]
    public void List_names_buses_and_prints_with_their_sizes_and_damage()
    {
        Kept.Flip(_kept.Signals[0], 0);

        var list = StoreContents.List(_kept.Store);
        var check = StoreContents.Verify(_kept.Store);

        Assert.Equal(2, list.Count(e => e.Kind == StoreEntryKind.Signal));
        Assert.Contains(list, e => e.Kind == StoreEntryKind.Damaged);
        Assert.Equal(["01 A", "02 B", "03 Wet", "90 RoughPreBus", "91 RoughWithBus", "92 Click"], list.Where(e => e.Kind == StoreEntryKind.Print).Select(e => e.Name));
        Assert.Single(check.Dropped);
        Assert.Equal(8, check.Whole);
        Assert.Equal(8, StoreContents.List(_kept.Store).Count);
    }

    [Fact]
    public void A_run_that_was_stopped_leaves_a_sound_store()
    {
        StoreContents.Clear(_kept.Store);
        using var stop = new CancellationTokenSource();

        Assert.ThrowsAny<OperationCanceledException>(() => SessionPrinter.Print(Revised, new PrintOptions { BlockFrames = 256, Store = new StoreOptions(_kept.Store) }, new StopAt(stop), stop.Token));

        Assert.Empty(Directory.GetFiles(_kept.Store, "*.partial", SearchOption.AllDirectories));
        Assert.Empty(StoreContents.Verify(_kept.Store).Dropped);
        _kept.PrintAsCold(Revised);
    }

    private sealed class StopAt(CancellationTokenSource stop) : IProgress<PrintProgress>
    {
        public void Report(PrintProgress value)
        {
            if (value.Part > 0)
            {
                stop.Cancel();
            }
        }
    }
}
