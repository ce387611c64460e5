using System.Text;
using System.Text.RegularExpressions;
using DrumPrint.Audio;
using DrumPrint.Files;
using DrumPrint.Reprinting;
using DrumPrint.Session;
using DrumPrint.Tests.Audio;
using DrumPrint.Tests.Files;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Reprinting;

/// <summary>A ticket or print from somebody else may say anything.</summary>
public sealed class ForgedTicketTests : IDisposable
{
    private const string Body = """
        "tracks": { "a": "a.wav" },
        "buses": { "b": { "from": { "a": { "level_db": 0, "ride": [ { "from_bar": 1, "to_bar": 2, "db": 1 } ] } } } },
        "prints": [ { "number": 1, "name": "A", "bus": "b" } ]
        """;

    private readonly TestSession _session = new();
    private readonly string _ticket;

    public ForgedTicketTests()
    {
        _session.Track("a.wav", Signals.Hits(4800, 3));
        Directory.CreateDirectory(Path.Combine(_session.Folder, "raw"));
        File.WriteAllText(Path.Combine(_session.Folder, "raw", "t.json"), """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 120 } ], "last_bar": 2, "sections": [ { "from_bar": 1, "name": "#!/bin/sh" } ] }""");
        _session.Print(_session.Chain(Body, """ "tempo": "raw/t.json" """));
        _ticket = Assert.Single(Directory.GetFiles(_session.Prints, "*.ticket.json"));
    }

    public void Dispose() => _session.Dispose();

    [Theory]
    [InlineData("../../t.sh", "it leads out of that folder by ..")]
    [InlineData("raw/../../../t.sh", "it leads out of that folder by ..")]
    [InlineData("ABSOLUTE/t.sh", "it is an absolute path")]
    [InlineData(".bash_aliases", ".bash_aliases would be a hidden file or folder")]
    [InlineData(".hidden.json", ".hidden.json would be a hidden file or folder")]
    [InlineData(".git/hooks/map.json", ".git would be a hidden file or folder")]
    [InlineData("tempo.sh", "the name of a tempo map ends in .json, .mid or .midi")]
    [InlineData("C:/t.sh", "it is an absolute path")]
    public void A_tempo_map_is_written_nowhere_but_beside_the_chain(string name, string why)
    {
        var before = Everything();
        Forge("\"raw/t.json\"", $"\"{name.Replace("ABSOLUTE", _session.Folder.Replace('\\', '/'), StringComparison.Ordinal)}\"");
        var deep = Path.Combine(_session.Folder, "deep", "down", "back.chain.json");

        var refused = Assert.Throws<UsageException>(() => ChainRecovery.Write(_ticket, deep));

        Assert.Contains(why, refused.Message, StringComparison.Ordinal);
        Assert.Contains("Nothing was written.", refused.Message, StringComparison.Ordinal);
        Assert.Equal(before, Everything());
    }

    [Fact]
    public void A_tempo_map_is_written_through_no_link()
    {
        var target = Path.Combine(_session.Folder, "back");
        Directory.CreateDirectory(target);
        Directory.CreateDirectory(Path.Combine(_session.Folder, "elsewhere"));
        if (!Links.Make(Path.Combine(target, "raw"), Path.Combine(_session.Folder, "elsewhere")))
        {
            return;
        }

        var refused = Assert.Throws<UsageException>(() => ChainRecovery.Write(_ticket, Path.Combine(target, "back.chain.json")));

        Assert.Contains("is a link", refused.Message, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(Path.Combine(_session.Folder, "elsewhere")));
    }

    [Fact]
    public void A_tempo_map_one_folder_up_is_read_where_it_is_and_not_written_where_it_is_not()
    {
        Forge("\"raw/t.json\"", "\"../raw/t.json\"");
        var chain = Path.Combine(_session.Folder, "back", "back.chain.json");

        Assert.DoesNotContain(ChainRecovery.Write(_ticket, chain).Notes, n => n.Contains("tempo", StringComparison.Ordinal));

        File.Delete(Path.Combine(_session.Folder, "raw", "t.json"));
        File.Delete(chain);
        var again = ChainRecovery.Write(_ticket, chain);
        Assert.Contains(again.Notes, n => n.Contains("it is not there", StringComparison.Ordinal));
        Assert.Null(again.TempoPath);
        Assert.False(File.Exists(Path.Combine(_session.Folder, "raw", "t.json")));
    }

    [Fact]
    public void That_a_ticket_was_edited_is_told_before_anything_is_written()
    {
        Forge("\"title\": \"Test\"", "\"title\": \"Tost\"");
        var chain = Path.Combine(_session.Folder, "back", "back.chain.json");
        var told = new List<(string Sentence, bool IsWritten)>();

        ChainRecovery.Write(_ticket, chain, sentence => told.Add((sentence, File.Exists(chain))));

        var (sentence, isWritten) = Assert.Single(told);
        Assert.Contains("was edited after printing", sentence, StringComparison.Ordinal);
        Assert.False(isWritten);
    }

    [Theory]
    [InlineData("../a.wav")]
    [InlineData("/a.wav")]
    [InlineData("sub/a.wav")]
    public void A_ticket_names_prints_beside_it_and_no_other_file(string name)
    {
        Forge("\"01_A_Test_v1.wav\"", $"\"{name}\"");

        var refused = Assert.Throws<TicketException>(() => Reprinter.Reprint(_ticket, new ReprintOptions()));

        Assert.Contains($"'{name}' is no file name by itself", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(4799)]
    public void A_length_below_that_of_the_raw_tracks_gives_other_prints_and_no_fault(int frames)
    {
        var text = File.ReadAllText(_ticket);
        var forged = Regex.Replace(text, @"(?m)^  ""frames"": \d+", $"  \"frames\": {frames}");
        Assert.NotEqual(text, forged);
        File.WriteAllText(_ticket, forged);

        var report = Reprinter.Reprint(_ticket, new ReprintOptions());

        Assert.All(report.Prints, p => Assert.Equal(ReprintOutcome.Differs, p.Outcome));
    }

    [Theory]
    [InlineData(13 * 48000 + 1, "13 s")]
    [InlineData(900_000_000_000_000, "13 s")]
    public void A_length_that_its_raw_tracks_cannot_give_is_refused_before_anything_is_rendered(long frames, string most)
    {
        var text = File.ReadAllText(_ticket);
        File.WriteAllText(_ticket, Regex.Replace(text, @"(?m)^  ""frames"": \d+", FormattableString.Invariant($"  \"frames\": {frames}")));
        var to = Path.Combine(_session.Folder, "again");

        var report = Reprinter.Reprint(_ticket, new ReprintOptions { OutFolder = to });

        Assert.All(report.Prints, p => Assert.Equal(ReprintOutcome.Differs, p.Outcome));
        Assert.All(report.Prints, p => Assert.Contains($"with the longest tail that its chain allows nothing of it is longer than {most}. It was changed", p.Cause, StringComparison.Ordinal));
        Assert.False(Directory.Exists(to));
    }

    [Fact]
    public void The_longest_length_that_its_raw_tracks_can_give_is_made()
    {
        var text = File.ReadAllText(_ticket);
        File.WriteAllText(_ticket, Regex.Replace(text, @"(?m)^  ""frames"": \d+", "  \"frames\": 624000"));

        var report = Reprinter.Reprint(_ticket, new ReprintOptions());

        Assert.All(report.Prints, p => Assert.DoesNotContain("longest tail", p.Cause, StringComparison.Ordinal));
    }

    [Fact]
    public void A_print_that_says_it_is_longer_than_it_is_is_refused_before_anything_is_rendered()
    {
        var print = Path.Combine(_session.Prints, "01_A_Test_v1.wav");
        _session.Print(_session.Chain(Body + ", \"output\": { \"tail_s\": 0 }", "\"tempo\": \"raw/t.json\""));
        ForgePrint(print, "\"frames\":48000,", "\"frames\":99999,");

        var report = Reprinter.Reprint(print, new ReprintOptions());

        var one = Assert.Single(report.Prints);
        Assert.Contains("says that it is 2.083 s long. Its raw tracks end at 0.1 s, and with the longest tail that its chain allows nothing of it is longer than 1 s, and the file itself holds 1 s. It was changed", one.Cause, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("../../t.sh", "it leads out of that folder by ..")]
    [InlineData("/tmp/dp.sh", "it is an absolute path")]
    [InlineData("r/../../.t", "it leads out of that folder by ..")]
    public void A_tempo_map_that_a_print_names_itself_is_written_nowhere_but_beside_the_chain(string name, string why)
    {
        var print = Path.Combine(_session.Prints, "01_A_Test_v1.wav");
        ForgePrint(print, "raw/t.json", name);
        var before = Everything();

        var refused = Assert.Throws<UsageException>(() => ChainRecovery.Write(print, Path.Combine(_session.Folder, "deep", "down", "back.chain.json")));

        Assert.Contains(why, refused.Message, StringComparison.Ordinal);
        Assert.Contains("Nothing was written.", refused.Message, StringComparison.Ordinal);
        Assert.Equal(before, Everything());
        Assert.False(File.Exists("/tmp/dp.sh"));
    }

    private static string Latin(string path) => Encoding.Latin1.GetString(File.ReadAllBytes(path));

    private static void ForgePrint(string path, string from, string to)
    {
        var text = Latin(path);
        Assert.Contains(from, text, StringComparison.Ordinal);
        File.WriteAllBytes(path, Encoding.Latin1.GetBytes(text.Replace(from, to, StringComparison.Ordinal)));
    }

    private void Forge(string from, string to)
    {
        var text = File.ReadAllText(_ticket);
        Assert.Contains(from, text, StringComparison.Ordinal);
        File.WriteAllText(_ticket, text.Replace(from, to, StringComparison.Ordinal));
    }

    private string[] Everything() => [.. Directory.GetFileSystemEntries(_session.Folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
}
