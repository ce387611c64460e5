using System.Globalization;
using System.Text;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>What becomes of a file under a print's name does not hang on ticket, store or version.</summary>
public sealed class FolderVerdictTests : IDisposable
{
    private const string Name = "01_A_Test_v1.wav";
    private const string Edited = "Changed or damaged after printing: 01_A.";

    private readonly TestSession _session = new();

    public FolderVerdictTests()
    {
        _session.Track("a.wav", Signals.Hits(4800, 1));
        Print();
    }

    public static TheoryData<bool, bool, bool> Witnesses
    {
        get
        {
            var all = new TheoryData<bool, bool, bool>();
            foreach (var n in Enumerable.Range(0, 8))
            {
                all.Add((n & 1) == 0, (n & 2) == 0, (n & 4) == 0);
            }

            return all;
        }
    }

    private string PrintPath => Path.Combine(_session.Prints, Name);

    private string KeptPath => Path.Combine(_session.Prints, "changed", Name);

    public void Dispose() => _session.Dispose();

    [Theory]
    [MemberData(nameof(Witnesses))]
    public void An_edited_print_is_kept_whatever_became_of_ticket_store_and_chain(bool ticket, bool store, bool sameChain)
    {
        Kept.Flip(PrintPath, 0.9);
        var edited = File.ReadAllBytes(PrintPath);
        Forget(ticket, store);

        var report = Print(sameChain ? -3 : -4);

        Assert.StartsWith(Edited, Assert.Single(report.Losses), StringComparison.Ordinal);
        Assert.Equal(edited, File.ReadAllBytes(KeptPath));
    }

    // The ticket is gone, and the record in the print names a version that this one is not: it was replaced without a word.
    [Fact]
    public void An_edited_print_of_another_version_without_a_ticket_is_kept()
    {
        Kept.Flip(PrintPath, 0.9);
        Replace(PrintPath, $"\"engine\":\"{EngineVersion.Text}\"", "\"engine\":\"9.9.9\"");
        var edited = File.ReadAllBytes(PrintPath);
        Forget(ticket: false, store: false);

        var report = Print();

        Assert.StartsWith(Edited, Assert.Single(report.Losses), StringComparison.Ordinal);
        Assert.Equal(edited, File.ReadAllBytes(KeptPath));
    }

    [Theory]
    [MemberData(nameof(Witnesses))]
    public void Other_tags_are_an_edit_too(bool ticket, bool store, bool sameChain)
    {
        Replace(PrintPath, "Test, v1: 01 A", "Mine, v1: 01 A");
        Forget(ticket, store);

        Assert.StartsWith(Edited, Assert.Single(Print(sameChain ? -3 : -4).Losses), StringComparison.Ordinal);
        Assert.True(File.Exists(KeptPath));
    }

    [Fact]
    public void What_another_program_put_behind_the_samples_is_an_edit()
    {
        File.AppendAllText(PrintPath, "cue ....");
        Forget(ticket: false, store: false);

        Assert.StartsWith(Edited, Assert.Single(Print().Losses), StringComparison.Ordinal);
    }

    [Fact]
    public void A_print_that_lost_its_record_was_saved_by_another_program()
    {
        Replace(PrintPath, "dprt", "xprt");
        Forget(ticket: false, store: false);

        Assert.StartsWith(Edited, Assert.Single(Print(-4).Losses), StringComparison.Ordinal);
    }

    [Fact]
    public void A_print_that_broke_off_is_kept()
    {
        File.WriteAllBytes(PrintPath, File.ReadAllBytes(PrintPath)[..^1000]);
        Forget(ticket: false, store: false);

        Assert.StartsWith(Edited, Assert.Single(Print().Losses), StringComparison.Ordinal);
        Assert.True(File.Exists(KeptPath));
    }

    [Theory]
    [MemberData(nameof(Witnesses))]
    public void A_print_that_nobody_touched_is_replaced_and_told_alike(bool ticket, bool store, bool sameChain)
    {
        Forget(ticket, store);

        var report = Print(sameChain ? -3 : -4);

        Assert.Equal(sameChain ? [] : ["Overwritten: 01_A, which sounded different. To keep both next time, raise song.version before printing."], report.Losses);
        Assert.False(Directory.Exists(Path.Combine(_session.Prints, "changed")));
    }

    [Fact]
    public void An_edited_print_survives_that_its_bus_changes_and_another_is_printed_alone()
    {
        Kept.Flip(PrintPath, 0.9);
        var edited = File.ReadAllBytes(PrintPath);

        Print(-4, "B");
        var report = Print(-4);

        Assert.Contains(report.Losses, l => l.StartsWith(Edited, StringComparison.Ordinal));
        Assert.Equal(edited, File.ReadAllBytes(KeptPath));
    }

    [Fact]
    public void An_edited_excerpt_is_kept_and_told_and_an_untouched_one_replaced()
    {
        var options = new PrintOptions { FromS = 0.01, ToS = 0.05 };
        var path = Path.Combine(_session.Print(Chain(-3), options).OutFolder, "01_A_Test_v1_0m00s010-0m00s050.wav");

        Assert.Empty(_session.Print(Chain(-4), options).Losses);
        Kept.Flip(path, 0.9);
        var edited = File.ReadAllBytes(path);
        var report = _session.Print(Chain(-4), options);

        Assert.StartsWith(Edited, Assert.Single(report.Losses), StringComparison.Ordinal);
        Assert.Equal(report.Losses, report.FolderNotes);
        Assert.Equal(edited, File.ReadAllBytes(Path.Combine(report.OutFolder, "changed", Path.GetFileName(path))));
    }

    [Fact]
    public void A_print_says_what_its_own_bytes_are()
    {
        var seal = FileSeal.Read(PrintPath)!;

        Assert.Equal(FileHash.AudioSha256(PrintPath), seal.AudioSha256);
        Assert.True(seal.Holds(seal.AudioSha256));
        foreach (var part in new[] { 0.0, 0.02, 0.1, 0.2, 0.3 })
        {
            var copy = Path.Combine(_session.Folder, "copy.wav");
            File.Copy(PrintPath, copy, overwrite: true);
            Kept.Flip(copy, part);
            Assert.False(IsAsWritten(copy), part.ToString(CultureInfo.InvariantCulture));
        }
    }

    [Fact]
    public void A_title_that_looks_like_a_seal_is_none()
    {
        var title = $"\\\"audio_sha256\\\":\\\"{FileSeal.Blank}\\\",\\\"header_sha256\\\":\\\"{FileSeal.Blank}\\\"";
        var chain = Chain(-3);
        _session.Print(chain with { Song = chain.Song with { Title = title.Replace("\\", "", StringComparison.Ordinal) } });

        Assert.True(IsAsWritten(PrintPath));
    }

    private static bool IsAsWritten(string path)
    {
        try
        {
            return FileSeal.Read(path) is { } seal && seal.Holds(FileHash.AudioSha256(path));
        }
        catch (AudioFileException)
        {
            return false;
        }
    }

    private static void Replace(string path, string from, string to)
    {
        var bytes = Encoding.Latin1.GetString(File.ReadAllBytes(path));
        Assert.Contains(from, bytes, StringComparison.Ordinal);
        File.WriteAllBytes(path, Encoding.Latin1.GetBytes(bytes.Replace(from, to, StringComparison.Ordinal)));
    }

    private void Forget(bool ticket, bool store)
    {
        if (!ticket)
        {
            File.Delete(Path.Combine(_session.Prints, "Test_v1.ticket.json"));
        }

        if (!store)
        {
            Directory.Delete(Store.Folder, recursive: true);
        }
    }

    private StoreOptions Store => StoreOptions.Beside(Path.Combine(_session.Folder, "test.chain.json"));

    private PrintReport Print(double levelDb = -3, params string[] only) => _session.Print(Chain(levelDb), new PrintOptions { Store = Store, Only = only });

    private Chain Chain(double levelDb) => _session.Chain(Body(levelDb));

    private static string Body(double levelDb) => string.Create(CultureInfo.InvariantCulture, $$"""
        "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": {{levelDb}} } }, "bus b": { "from": { "a": -9 } } },
        "prints": [ { "number": 1, "name": "A", "bus": "bus a" }, { "number": 2, "name": "B", "bus": "bus b" } ], "output": { "tail_s": 0, "rough": false }
        """);
}
