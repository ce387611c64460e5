using System.Security.Cryptography;
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
    [InlineData("""{ "journal": 1, "kept": "old", "set": [ { "name": "mine.wav", "old_sha256": "HASH", "before": "T1" } ] }""")]
    [InlineData("""{ "journal": 1, "kept": "old", "set": [ { "name": "mine.wav", "staged": "T1", "new_sha256": "HASH" }, { "name": "q.wav", "staged": "T2", "new_sha256": "00" } ] }""")]
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
        Journal($$"""{ "journal": 1, "kept": "old", "set": [ { "name": "a.wav", "staged": "T1", "new_sha256": "00" }, { "name": "b.wav", "old_sha256": "{{hash}}", "kept_as": "take.wav" } ] }""");

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

    private void Journal(string text) => File.WriteAllText(
        Path.Combine(_session.Prints, SetJournal.FileName), text.Replace("T1", TemporaryName.New(), StringComparison.Ordinal).Replace("T2", TemporaryName.New(), StringComparison.Ordinal));

    private void Print() => _session.Print(
        _session.Chain("""
            "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": -3 } } }, "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ], "output": { "tail_s": 0 }
            """),
        new PrintOptions());
}
