using DrumPrint.Printing;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class SessionFolderTests : IDisposable
{
    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_file_is_the_chain_itself_whether_it_is_there_or_not() => Assert.Equal("no.chain.json", SessionFolder.Chain("no.chain.json"));

    [Fact]
    public void The_only_chain_of_a_folder_is_the_one_that_is_meant()
    {
        Put("Song.chain.json");
        Put("._Song.chain.json");
        Put("Song.chain.json.bak");
        Put("notes.json");

        Assert.Equal(Path.Combine(_session.Folder, "Song.chain.json"), SessionFolder.Chain(_session.Folder));
    }

    [Fact]
    public void Several_chains_are_named_and_one_is_asked_for()
    {
        Put("My song.chain.json");
        Put("Song.chain.json");

        Assert.Equal(
            $"{_session.Folder} holds 2 chains: My song.chain.json and Song.chain.json. Name the one to print, such as: drumprint print \"{Path.Combine(_session.Folder, "My song.chain.json")}\"",
            Refused(_session.Folder));
    }

    [Fact]
    public void A_folder_of_prints_points_to_reprint_and_to_the_chain_above_it()
    {
        _session.Track("a.wav", Signals.Hits(4800, 1));
        _session.Print(_session.Chain("""
            "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ], "output": { "tail_s": 0 }
            """));
        Put("test.chain.json");

        var withTicket = Refused(_session.Prints);
        File.Delete(Path.Combine(_session.Prints, "Test_v1.ticket.json"));
        var without = Refused(_session.Prints);

        Assert.StartsWith($"{_session.Prints} holds prints and no chain file. To make them again and compare: drumprint reprint {_session.Prints} — to print, name the chain file: drumprint print ", withTicket, StringComparison.Ordinal);
        Assert.EndsWith("test.chain.json", withTicket, StringComparison.Ordinal);
        Assert.Equal(withTicket, without);
    }

    [Fact]
    public void A_folder_without_a_chain_says_what_is_looked_for()
    {
        _session.Track("raw/a.wav", Signals.Hits(480, 1));
        var raw = Path.Combine(_session.Folder, "raw");

        Assert.Equal($"{raw} holds no chain file, a name that ends in .chain.json. Name the chain file.", Refused(raw));
    }

    private static string Refused(string path) => Assert.Throws<UsageException>(() => SessionFolder.Chain(path)).Message;

    private void Put(string name) => File.WriteAllText(Path.Combine(_session.Folder, name), "{ }");
}
