using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Printing.Reports;
using DrumPrint.Reprinting;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class ChangedPrintTests : IDisposable
{
    private readonly TestSession _session = new();
    private readonly string _print;
    private readonly string _changed;

    public ChangedPrintTests()
    {
        _session.Track("a.wav", Signals.Hits(4800, 1));
        _print = Path.Combine(_session.Prints, "01_A_Test_v1.wav");
        _changed = Path.Combine(_session.Prints, "changed");
    }

    // With a store, the run knows the print without rendering; the rule is the same.
    public static TheoryData<bool, bool> Runs => new() { { false, false }, { false, true }, { true, false }, { true, true } };

    private Chain Chain => _session.Chain("""
        "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": -3 } } },
        "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ], "output": { "tail_s": 0 }
        """);

    public void Dispose() => _session.Dispose();

    [Theory]
    [MemberData(nameof(Runs))]
    public void A_print_that_somebody_has_edited_is_kept_beside_the_new_one_and_named(bool store, bool ticket)
    {
        Print(store);
        var printed = File.ReadAllBytes(_print);
        Kept.Flip(_print, 0.9);
        var edited = File.ReadAllBytes(_print);
        if (!ticket)
        {
            File.Delete(Path.Combine(_session.Prints, "Test_v1.ticket.json"));
        }

        var report = Print(store);

        Assert.Equal(
            $"Changed or damaged after printing: 01_A. The new print takes its name; the file that was there is kept in {_changed}.",
            Assert.Single(report.FolderNotes));
        Assert.Equal(printed, File.ReadAllBytes(_print));
        Assert.Equal(edited, File.ReadAllBytes(Path.Combine(_changed, "01_A_Test_v1.wav")));
    }

    [Fact]
    public void A_second_edit_replaces_no_first()
    {
        Print();
        Kept.Flip(_print, 0.9);
        Print();
        Kept.Flip(_print, 0.8);

        Print();

        Assert.Equal(["01_A_Test_v1.wav", "01_A_Test_v1_2.wav"], Directory.GetFiles(_changed).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Prints_that_are_as_they_were_printed_are_replaced_and_not_kept()
    {
        Print();
        _session.Track("a.wav", Signals.Hits(4800, 2));

        Print();

        Assert.False(Directory.Exists(_changed));
    }

    [Fact]
    public void A_file_that_was_put_there_and_is_what_is_printed_now_is_no_change()
    {
        Print();
        var first = File.ReadAllBytes(_print);
        var raw = File.ReadAllBytes(Path.Combine(_session.Folder, "a.wav"));
        _session.Track("a.wav", Signals.Hits(4800, 2));
        Print();
        File.WriteAllBytes(_print, first);
        File.WriteAllBytes(Path.Combine(_session.Folder, "a.wav"), raw);

        Print();

        Assert.False(Directory.Exists(_changed));
    }

    [Fact]
    public void A_reprint_keeps_an_edited_print_in_its_folder_and_says_so()
    {
        Print();
        var again = Path.Combine(_session.Folder, "again");
        Reprinter.Reprint(_session.Prints, new ReprintOptions { OutFolder = again });
        Kept.Flip(Path.Combine(again, "01_A_Test_v1.wav"), 0.9);

        var report = Reprinter.Reprint(_session.Prints, new ReprintOptions { OutFolder = again });

        Assert.True(report.IsIdentical);
        Assert.StartsWith("Changed or damaged after printing: 01_A.", Assert.Single(report.Notes), StringComparison.Ordinal);
        Assert.True(File.Exists(Path.Combine(again, "changed", "01_A_Test_v1.wav")));
        Assert.Equal(FileHash.Sha256(_print), FileHash.Sha256(Path.Combine(again, "01_A_Test_v1.wav")));
    }

    private PrintReport Print(bool store = false) =>
        _session.Print(Chain, new PrintOptions { Store = store ? new StoreOptions(Path.Combine(_session.Folder, ".drumprint")) : null });
}
