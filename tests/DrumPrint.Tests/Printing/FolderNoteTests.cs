using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class FolderNoteTests : IDisposable
{
    private readonly TestSession _session = new();

    public FolderNoteTests()
    {
        _session.Track("a.wav", Signals.Hits(4800, 1));
        _session.Track("b.wav", Signals.Hits(4800, 2));
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Replacing_a_print_that_sounded_different_is_told_by_its_name()
    {
        Print(aDb: 0);

        var report = Print(aDb: -3);

        Assert.Equal(
            "Overwritten: 01_A and 90_RoughPreBus, which sounded different. To keep both next time, raise song.version before printing.",
            Assert.Single(report.FolderNotes));
        Assert.Empty(report.Findings);
    }

    [Fact]
    public void Replacing_a_print_with_its_like_is_not_worth_a_word()
    {
        Assert.Empty(Print(aDb: 0).FolderNotes);

        Assert.Empty(Print(aDb: 0).FolderNotes);
    }

    [Fact]
    public void Without_a_ticket_a_replaced_print_is_told_just_the_same()
    {
        Print(aDb: 0);
        File.Delete(Path.Combine(_session.Prints, "Test_v1.ticket.json"));

        var report = Print(aDb: -3);

        Assert.Equal(
            "Overwritten: 01_A and 90_RoughPreBus, which sounded different. To keep both next time, raise song.version before printing.",
            Assert.Single(report.FolderNotes));
    }

    [Fact]
    public void Prints_that_only_got_longer_replace_nothing()
    {
        Print(aDb: 0, tailS: 0);

        Assert.Empty(Print(aDb: 0, tailS: 1).FolderNotes);
    }

    [Fact]
    public void Without_a_ticket_too_prints_that_only_got_longer_replace_nothing()
    {
        Print(aDb: 0);
        File.Delete(Path.Combine(_session.Prints, "Test_v1.ticket.json"));
        _session.Track("b.wav", Signals.Hits(60000, 2));

        var note = Assert.Single(Print(aDb: 0).FolderNotes);

        Assert.StartsWith("Overwritten: 02_B and 90_RoughPreBus, which sounded different.", note, StringComparison.Ordinal);
    }

    [Fact]
    public void Prints_of_another_length_are_not_claimed_to_have_sounded_different()
    {
        Print(aDb: 0, tailS: 1);

        var report = Print(aDb: 0, tailS: 0);

        Assert.Contains("which were longer, and the same up to where the new ones end.", Assert.Single(report.FolderNotes), StringComparison.Ordinal);
    }

    [Fact]
    public void What_became_of_a_folder_is_no_part_of_a_ticket()
    {
        Print(aDb: 0);
        var first = File.ReadAllText(Path.Combine(_session.Prints, "Test_v1.ticket.json"));
        Print(aDb: -3);

        Assert.NotEmpty(Print(aDb: 0).FolderNotes);

        Assert.Equal(first, File.ReadAllText(Path.Combine(_session.Prints, "Test_v1.ticket.json")));
    }

    [Fact]
    public void Prints_of_a_name_the_chain_has_no_more_and_of_another_version_are_named_in_one_note()
    {
        Print(aDb: 0);
        Directory.Move(_session.Prints, Path.Combine(_session.Folder, "first"));
        Directory.CreateDirectory(_session.Prints);
        var first = Path.Combine(_session.Folder, "first", "02_B_Test_v1.wav");
        foreach (var name in new[] { "02_Bee_Test_v1.wav", "02_B_Test_v2.wav", "02_B_Other_v1.wav" })
        {
            File.Copy(first, Path.Combine(_session.Prints, name));
        }

        foreach (var name in new[] { "01_A", "02_B", "03_C", "90_RoughPreBus" })
        {
            File.Copy(first, Path.Combine(_session.Prints, $"{name}_Test_v7.wav"));
        }

        File.WriteAllText(Path.Combine(_session.Prints, "05_Mine_Test_v1.wav"), "RIFF of somebody else");

        var note = Assert.Single(Print(aDb: 0).FolderNotes);

        Assert.Equal(
            $"Also in {_session.Prints}, but not made by this chain as it is now: 02_Bee_Test_v1.wav, 02_B_Test_v2.wav and 4 files of version 7. Sort them out before you hand the folder over.",
            note);
    }

    [Fact]
    public void When_nothing_is_new_files_that_were_named_before_are_only_counted()
    {
        var options = new PrintOptions { Store = StoreOptions.Beside(Path.Combine(_session.Folder, "test.chain.json")) };
        _session.Print(Chain(aDb: 0, tailS: 0), options);
        File.Copy(Path.Combine(_session.Prints, "02_B_Test_v1.wav"), Path.Combine(_session.Prints, "02_Bee_Test_v1.wav"));

        var report = _session.Print(Chain(aDb: 0, tailS: 0), options);

        Assert.Equal($"Also in {_session.Prints} as before: 1 file not made by this chain as it is now.", Assert.Single(report.FolderNotes));
    }

    [Fact]
    public void Prints_that_a_run_of_some_leaves_alone_are_not_stale()
    {
        Print(aDb: 0);

        var report = PrintA();

        Assert.DoesNotContain(report.FolderNotes, n => n.Contains("02_B", StringComparison.Ordinal));
    }

    [Fact]
    public void A_run_of_some_prints_tells_that_it_took_the_ticket_away()
    {
        Print(aDb: 0);

        var report = PrintA();

        Assert.StartsWith("The ticket Test_v1.ticket.json was taken away", Assert.Single(report.FolderNotes), StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(_session.Prints, "Test_v1.ticket.json")));
    }

    [Fact]
    public void A_run_of_some_prints_tells_that_there_is_no_ticket()
    {
        var report = PrintA();

        Assert.StartsWith("No ticket was written", Assert.Single(report.FolderNotes), StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(_session.Prints, "Test_v1.ticket.json")));
    }

    [Fact]
    public void A_run_of_some_prints_that_are_unchanged_leaves_the_ticket_and_says_nothing_of_it()
    {
        var options = new PrintOptions { Store = StoreOptions.Beside(Path.Combine(_session.Folder, "test.chain.json")) };
        _session.Print(Chain(aDb: 0, tailS: 0), options);

        var report = _session.Print(Chain(aDb: 0, tailS: 0), options with { Only = ["A"] });

        Assert.True(Assert.Single(report.Prints).IsUnchanged);
        Assert.Empty(report.FolderNotes);
        Assert.True(File.Exists(Path.Combine(_session.Prints, "Test_v1.ticket.json")));
    }

    private PrintReport PrintA() => _session.Print(Chain(aDb: 0, tailS: 0), new PrintOptions { Only = ["A"] });

    private PrintReport Print(double aDb, double tailS = 0) => _session.Print(Chain(aDb, tailS));

    private Chain Chain(double aDb, double tailS) => _session.Chain(string.Create(CultureInfo.InvariantCulture, $$"""
        "tracks": { "a": "a.wav", "b": "b.wav" },
        "buses": { "bus a": { "from": { "a": {{aDb}} } }, "bus b": { "from": { "b": -6 } } },
        "prints": [ { "number": 1, "name": "A", "bus": "bus a" }, { "number": 2, "name": "B", "bus": "bus b" } ],
        "output": { "tail_s": {{tailS}} }
        """));
}
