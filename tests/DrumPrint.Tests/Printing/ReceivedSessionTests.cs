using System.Security.Cryptography;
using DrumPrint.Audio;
using DrumPrint.Files;
using DrumPrint.Session;
using DrumPrint.Tests.Files;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>A session that came by mail, with a journal or links in it.</summary>
public sealed class ReceivedSessionTests : IDisposable
{
    private readonly TestSession _session = new();

    public ReceivedSessionTests()
    {
        _session.Track("a.wav", Signals.Hits(4800, 1));
        Directory.CreateDirectory(_session.Prints);
    }

    public void Dispose() => _session.Dispose();

    [Theory]
    [InlineData("""{ "journal": 2, "kept": "old", "set": [ { "name": "mine.wav", "old_sha256": "HASH", "before": "T1" } ] }""")]
    [InlineData("""{ "journal": 2, "kept": "old", "set": [ { "name": "mine.wav", "staged": "T1", "new_sha256": "HASH" }, { "name": "q.wav", "staged": "T2", "new_sha256": "00" } ] }""")]
    public void A_journal_that_names_somebody_s_file_by_its_true_hash_loses_it_not(string journal)
    {
        var mine = Path.Combine(_session.Prints, "mine.wav");
        File.WriteAllText(mine, "precious");
        Journal(journal.Replace("HASH", Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(mine))), StringComparison.Ordinal));

        Print();

        Assert.Equal("precious", File.ReadAllText(Assert.Single(Directory.GetFiles(_session.Prints, "mine*", SearchOption.AllDirectories))));
    }

    [Fact]
    public void A_journal_moves_nothing_out_of_a_linked_folder()
    {
        var outside = Directory.CreateDirectory(Path.Combine(_session.Folder, "outside")).FullName;
        File.WriteAllText(Path.Combine(outside, "take.wav"), "precious");
        if (!Links.Make(Path.Combine(_session.Prints, "old"), outside))
        {
            return;
        }

        var hash = Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Path.Combine(outside, "take.wav"))));
        Journal($$"""{ "journal": 2, "kept": "old", "set": [ { "name": "a.wav", "staged": "T1", "new_sha256": "00" }, { "name": "b.wav", "old_sha256": "{{hash}}", "kept_as": "take.wav" } ] }""");

        Print();

        Assert.Equal("precious", File.ReadAllText(Path.Combine(outside, "take.wav")));
    }

    [Fact]
    public void A_session_s_own_link_is_not_written_through()
    {
        var outside = Directory.CreateDirectory(Path.Combine(_session.Folder, "outside")).FullName;
        Directory.Delete(_session.Prints);
        if (!Links.Make(_session.Prints, outside))
        {
            return;
        }

        var refused = Assert.Throws<UsageException>(Print);

        Assert.Contains("is a link to", refused.Message, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(outside));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_journal_that_somebody_else_wrote_moves_nothing_not_even_prints(bool isSummed)
    {
        Print();
        var print = Assert.Single(Directory.GetFiles(_session.Prints, "01_*.wav"));
        var whole = File.ReadAllBytes(print);
        var hash = Convert.ToHexStringLower(SHA256.HashData(whole));
        Unsealed($$"""{ "journal": 2, "kept": "old", "set": [ { "name": "{{Path.GetFileName(print)}}", "old_sha256": "{{hash}}", "before": "T1" } ] }""");
        if (isSummed)
        {
            Seal(JournalSeal.Of("the secret of somebody else"u8));
        }

        var refused = Assert.Throws<AudioFileException>(Print);

        Assert.Contains("no list of files that your DrumPrint wrote on this machine", refused.Message, StringComparison.Ordinal);
        Assert.Equal(whole, File.ReadAllBytes(print));
        Assert.True(SetJournal.IsIn(_session.Prints));
    }

    [Fact]
    public void A_journal_changed_by_one_name_is_refused()
    {
        Journal("""{ "journal": 2, "kept": "old", "set": [ { "name": "a.wav", "old_sha256": "00", "before": "T1" } ] }""");
        var path = SetJournal.PathIn(_session.Prints);
        File.WriteAllText(path, File.ReadAllText(path).Replace("a.wav", "b.wav", StringComparison.Ordinal));

        Assert.Throws<AudioFileException>(Print);
    }

    // As this user's own run leaves one, so that what it may name is what is tried.
    private void Journal(string text)
    {
        Unsealed(text);
        Seal(JournalSeal.OfUser(FileSteps.Plain));
    }

    private void Unsealed(string text) => File.WriteAllText(
        SetJournal.PathIn(_session.Prints), text.Replace("T1", TemporaryName.New(), StringComparison.Ordinal).Replace("T2", TemporaryName.New(), StringComparison.Ordinal));

    private void Seal(JournalSeal seal)
    {
        var journal = SetJournal.Read(_session.Prints, JournalSeal.None)!;
        File.Delete(SetJournal.PathIn(_session.Prints));
        journal.Write(_session.Prints, seal, FileSteps.Plain);
    }

    private void Print() => _session.Print(
        _session.Chain("""
            "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": -3 } } }, "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ], "output": { "tail_s": 0 }
            """),
        new PrintOptions());
}
