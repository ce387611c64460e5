using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class MissingInputTests : IDisposable
{
    private const string Tracks = "\"in\": \"raw/01_In.wav\", \"out\": \"raw/02_Out.wav\", \"sub\": \"raw/03_Sub.wav\"";
    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_missing_folder_is_told_once_with_the_nearest_folder_that_is_there() =>
        Assert.Equal([$"{ChainPath}:3: the folder raw is not there: 3 tracks name files in it. The nearest folder that is there is {_session.Folder}."], Problems(Tracks));

    [Theory]
    [InlineData("raw/01_In", "01_In.wav")]
    [InlineData("raw/01_In.wav.wav", "01_In.wav")]
    public void A_forgotten_or_doubled_ending_is_seen(string file, string meant)
    {
        Write("raw/01_In.wav");

        Assert.Contains($"Did you mean {meant}?", Assert.Single(Problems($"\"in\": \"{file}\"")), StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_whose_accents_are_written_in_another_way_is_the_same_file()
    {
        Write("raw/U\u0308berkopf.wav");

        var report = _session.Print(_session.Chain("""
            "tracks": { "in": "raw/Überkopf.wav" },
            "buses": { "b": { "from": { "in": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "b" } ]
            """));

        Assert.Contains("01_A_Test_v1.wav", report.Prints.Select(p => p.FileName));
    }

    [Fact]
    public void A_link_whose_accents_are_written_in_another_way_is_not_followed()
    {
        Write("elsewhere/private.wav");
        Directory.CreateDirectory(Path.Combine(_session.Folder, "song", "raw"));
        if (!Files.Links.Make(Path.Combine(_session.Folder, "song/raw/U\u0308berkopf.wav"), Path.Combine(_session.Folder, "elsewhere/private.wav")))
        {
            return;
        }

        var chain = Path.Combine(_session.Folder, "song/a.chain.json");
        File.WriteAllText(chain, """
            { "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000 }, "tracks": { "in": "raw/Überkopf.wav" },
              "buses": { "b": { "from": { "in": 0 } } }, "prints": [ { "number": 1, "name": "A", "bus": "b" } ] }
            """);

        var refused = Assert.Throws<InputException>(() => _session.Print(ChainReader.Read(chain)));

        Assert.Contains("there is no such file", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_of_a_like_name_is_offered()
    {
        Directory.CreateDirectory(Path.Combine(_session.Folder, "rwa"));

        Assert.Equal([$"{ChainPath}:3: the folder raw is not there: 3 tracks name files in it. Did you mean rwa?"], Problems(Tracks));
    }

    [Fact]
    public void The_folder_that_holds_the_files_is_offered_before_one_of_a_like_name()
    {
        Directory.CreateDirectory(Path.Combine(_session.Folder, "rwa"));
        Write("takes/01_In.wav", "takes/03_Sub.wav");

        Assert.Equal([$"{ChainPath}:3: the folder raw is not there: 3 tracks name files in it. takes holds 2 of these names; if that is the folder, name it in the chain."], Problems(Tracks));
    }

    [Fact]
    public void Files_that_lie_beside_the_chain_are_found_there()
    {
        Write("01_In.wav");

        Assert.EndsWith($" {_session.Folder} holds 1 of these names; if that is the folder, name it in the chain.", Assert.Single(Problems(Tracks)), StringComparison.Ordinal);
    }

    [Fact]
    public void The_highest_folder_that_is_missing_is_named_with_all_that_it_should_hold()
    {
        Write("kit/01_In.wav");

        var problems = Problems("\"in\": \"kit/01_In.wav\", \"out\": \"kit/day 1/02_Out.wav\", \"sub\": \"kit/day 1/late/03_Sub.wav\"", "\"room\": { \"file\": \"kit/day 1/room.wav\" }");

        Assert.Equal([$"{ChainPath}:3: the folder kit/day 1 is not there: 2 tracks and 1 impulse name files in it. The nearest folder that is there is {Path.Combine(_session.Folder, "kit")}."], problems);
    }

    [Fact]
    public void One_file_in_a_missing_folder_is_named() =>
        Assert.StartsWith($"{ChainPath}:3: the folder raw is not there: track 'in' names 01_In.wav in it. ", Assert.Single(Problems("\"in\": \"raw/01_In.wav\"")), StringComparison.Ordinal);

    [Fact]
    public void Two_missing_folders_and_a_missing_file_are_told_apart()
    {
        Write("raw/01_In.wav");

        var problems = Problems("\"in\": \"raw/01_In.wav\", \"out\": \"raw/02_Out.wav\", \"sub\": \"more/03_Sub.wav\"", "\"room\": { \"file\": \"ir/room.wav\" }");

        Assert.Equal(3, problems.Count);
        Assert.StartsWith($"{ChainPath}:3: the folder more is not there: track 'sub'", problems[0], StringComparison.Ordinal);
        Assert.StartsWith($"{ChainPath}:3: the folder ir is not there: impulse 'room'", problems[1], StringComparison.Ordinal);
        Assert.Equal($"{ChainPath}:3: track 'out': raw/02_Out.wav: there is no such file.", problems[2]);
    }

    [Fact]
    public void A_lost_tempo_map_does_not_hide_that_the_raw_folder_is_lost_too()
    {
        var problems = Mistakes(Body(Tracks, ""), "\"tempo\": \"raw/tempo.json\"");

        Assert.Equal(2, problems.Count);
        Assert.StartsWith("the tempo map was not found", problems[0].Message, StringComparison.Ordinal);
        Assert.Equal($"the folder raw is not there: 3 tracks name files in it. The nearest folder that is there is {_session.Folder}.", problems[1].Message);
        Assert.Equal("tracks.in", problems[1].Place);
    }

    [Fact]
    public void A_mistake_in_the_chain_does_not_hide_that_files_are_missing()
    {
        Write("raw/01_In.wav", "raw/02_Oht.wav");

        var problems = Mistakes(Body(Tracks, "").Replace("\"number\"", "\"nubmer\"", StringComparison.Ordinal));

        Assert.Equal(
            [
                "tracks.out: raw/02_Out.wav: there is no such file. Did you mean 02_Oht.wav?",
                "tracks.sub: raw/03_Sub.wav: there is no such file.",
                "prints[0].nubmer: 'nubmer' is not a key of a print. Did you mean 'number'?",
            ],
            problems.Select(p => $"{p.Place}: {p.Message}"));
    }

    [Fact]
    public void A_file_outside_the_session_is_not_looked_for()
    {
        var problems = Mistakes(Body("\"in\": \"../../nowhere/in.wav\"", "").Replace("\"number\"", "\"nubmer\"", StringComparison.Ordinal));

        Assert.Equal("prints[0].nubmer", Assert.Single(problems).Place);
    }

    [Fact]
    public void Sound_files_that_no_track_names_are_listed_where_one_is_missing()
    {
        Write("raw/01_In.wav", "raw/03_Sub.wav", "raw/Bass drum front.wav", "raw/02_Out (2).WAV", "raw/notes.txt", "raw/.hidden.wav");

        Assert.Equal(
            [$"{ChainPath}:3: track 'out': raw/02_Out.wav: there is no such file.", $"{ChainPath}: in raw and not used: 02_Out (2).WAV, Bass drum front.wav."],
            Problems(Tracks));
    }

    [Fact]
    public void No_more_than_five_unused_files_are_listed_the_likeliest_first()
    {
        Write(["raw/01_In.wav", "raw/03_Sub.wav", "raw/02_Out_new.wav", .. Enumerable.Range(1, 6).Select(n => $"raw/Somewhere else altogether {n}.wav")]);

        Assert.EndsWith(
            ": in raw and not used: 02_Out_new.wav, " + string.Join(", ", Enumerable.Range(1, 4).Select(n => $"Somewhere else altogether {n}.wav")) + ", … (7 in all).",
            Problems(Tracks)[^1],
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_was_offered_already_is_not_listed_again()
    {
        Write("raw/01_In.wav", "raw/03_Sub.wav", "raw/02_Oht.wav");

        Assert.Equal([$"{ChainPath}:3: track 'out': raw/02_Out.wav: there is no such file. Did you mean 02_Oht.wav?"], Problems(Tracks));
    }

    [Fact]
    public void Unused_files_are_no_matter_while_none_is_missing()
    {
        Write("raw/01_In.wav", "raw/02_Out.wav", "raw/03_Sub.wav", "raw/Spare.wav");

        Assert.Empty(_session.Print(_session.Chain(Body(Tracks, ""))).Findings);
    }

    private string ChainPath => Path.Combine(_session.Folder, "test.chain.json");

    private void Write(params string[] files)
    {
        for (var n = 0; n < files.Length; n++)
        {
            _session.Track(files[n], Signals.Hits(480, (ulong)n + 1));
        }
    }

    private IReadOnlyList<string> Problems(string tracks, string impulses = "") =>
        Assert.Throws<InputException>(() => _session.Print(_session.Chain(Body(tracks, impulses)))).Problems;

    private IReadOnlyList<ChainProblem> Mistakes(string body, string song = "")
    {
        var text = $"{{ \"chain\": 1, \"song\": {{ \"title\": \"T\", \"code\": \"T\", \"rate_hz\": 48000{(song.Length > 0 ? ", " : "")}{song} }}, {body} }}";
        File.WriteAllText(ChainPath, text);
        return Assert.Throws<ChainException>(() => ChainReader.Read(ChainPath)).Problems;
    }

    private static string Body(string tracks, string impulses)
    {
        var names = tracks.Split(", ").Select(t => $"{t.Split(':')[0]}: -12");
        var through = impulses.Length == 0 ? "" : ", \"through\": [ { \"convolve\": { \"impulse\": \"room\" } } ]";
        return $$"""
            "tracks": { {{tracks}} }, "impulses": { {{impulses}} }, "buses": { "all": { "from": { {{string.Join(", ", names)}} }{{through}} } },
            "prints": [ { "number": 1, "name": "All", "bus": "all" } ]
            """;
    }
}
