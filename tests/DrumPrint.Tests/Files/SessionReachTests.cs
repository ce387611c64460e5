using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Comparing;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Files;
using DrumPrint.Session;
using DrumPrint.Tests.Audio;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Files;

public sealed class SessionReachTests : IDisposable
{
    private readonly TestFolder _place = new();
    private readonly string _session;

    public SessionReachTests()
    {
        _session = _place.File("songs/ferry");
        foreach (var folder in new[] { "songs/ferry/raw", "songs/raw", "songs/ferryman", "secret" })
        {
            Directory.CreateDirectory(_place.File(folder));
        }
    }

    public void Dispose() => _place.Dispose();

    [Theory]
    [InlineData("kick.wav")]
    [InlineData("raw/kick.wav")]
    [InlineData("raw/../kick.wav")]
    [InlineData("../raw/kick.wav")]
    [InlineData("raw/../../raw/kick.wav")]
    [InlineData("../kick.wav")]
    [InlineData("not/there/kick.wav")]
    public void A_session_is_the_folder_of_the_chain_and_the_one_around_it(string file) => Assert.Null(Reach().Outside(file));

    [Theory]
    [InlineData("../../kick.wav")]
    [InlineData("../../secret/kick.wav")]
    [InlineData("../raw/../../secret/kick.wav")]
    [InlineData("raw/../../../secret/kick.wav")]
    public void Further_up_is_outside(string file) => Assert.NotNull(Reach().Outside(file));

    [Fact]
    public void A_whole_path_is_inside_only_in_the_folder_of_the_chain()
    {
        Assert.Null(Reach().Outside(Path.Combine(_session, "raw", "kick.wav")));
        Assert.Equal(_place.File("songs/raw"), Reach().Outside(_place.File("songs/raw/kick.wav")));
        Assert.Equal(_place.File("songs/ferryman"), Reach().Outside(_place.File("songs/ferryman/kick.wav")));
        Assert.NotNull(Reach().Outside(OperatingSystem.IsWindows() ? @"\\server\share\kick.wav" : "/etc/kick.wav"));
    }

    [Fact]
    public void A_link_counts_for_what_it_leads_to()
    {
        if (!Links.Make(Path.Combine(_session, "away"), _place.File("secret")) || !Links.Make(Path.Combine(_session, "take.wav"), _place.Put("secret.wav", [])))
        {
            return;
        }

        Links.Make(Path.Combine(_session, "near"), Path.Combine(_session, "raw"));

        Assert.Equal(RealPath.Of(_place.File("secret")), Reach().Outside("away/kick.wav"));
        Assert.Equal(RealPath.Of(_place.Path), Reach().Outside("take.wav"));
        Assert.Null(Reach().Outside("near/kick.wav"));
    }

    // Where the disk tells case apart a name stays as it is; where it does not, both are the one that is there.
    [Fact]
    public void A_name_has_the_case_of_the_disk()
    {
        var upper = Directory.CreateDirectory(Path.Combine(_session, "TAKE")).FullName;
        var lower = Path.Combine(_session, "take");
        var isOne = Directory.Exists(lower);

        Assert.Equal(isOne ? RealPath.Of(upper) : Path.Combine(RealPath.Of(_session), "take"), RealPath.Of(lower));
        Directory.CreateDirectory(lower);
        Assert.Equal("TAKE", Path.GetFileName(RealPath.Of(upper)));
        Assert.Equal(isOne ? "TAKE" : "take", Path.GetFileName(RealPath.Of(lower)));
    }

    [Fact]
    public void A_session_that_is_itself_reached_by_a_link_is_a_session()
    {
        if (!Links.Make(_place.File("link"), _session))
        {
            return;
        }

        Assert.Null(new SessionReach(ReadPolicy.Default, _place.File("link")).Outside("raw/kick.wav"));
    }

    [Fact]
    public void What_the_user_allows_is_read()
    {
        Assert.Null(Reach(new ReadPolicy { AllowsOutside = true }).Outside("../../secret/kick.wav"));
        Assert.Null(Reach(new ReadPolicy { Folders = [_place.File("secret")] }).Outside("../../secret/deep/kick.wav"));
        Assert.NotNull(Reach(new ReadPolicy { Folders = [_place.File("secre")] }).Outside("../../secret/kick.wav"));
    }

    [Fact]
    public void A_print_names_the_track_the_folder_the_option_and_the_line_of_the_settings()
    {
        using var session = new TestSession();
        using var other = new TestSession();
        other.Track("kick.wav", Signals.Hits(480, 1));
        other.Track("snare.wav", Signals.Hits(480, 1));
        var chain = session.Chain($$"""
            "tracks": { "kick": {{Json(other.Folder, "kick.wav")}}, "snare": {{Json(other.Folder, "snare.wav")}} },
            "buses": { "b": { "from": { "kick": 0, "snare": 0 } } }, "prints": [ { "number": 1, "name": "A", "bus": "b" } ]
            """);

        var refused = Assert.Throws<InputException>(() => session.Print(chain));

        Assert.Single(refused.Problems);
        Assert.Contains("test.chain.json:3: track 'kick' and 1 more name files in ", refused.Message, StringComparison.Ordinal);
        Assert.Contains("add --allow-outside", refused.Message, StringComparison.Ordinal);
        Assert.Contains($"settings.json: \"read_from\": [{Json(other.Folder, "")}]", refused.Message, StringComparison.Ordinal);
        Assert.Empty(session.Files());
        Assert.NotEmpty(session.Print(chain, new PrintOptions { Reading = new ReadPolicy { Folders = [other.Folder] } }).Prints);
        Assert.NotEmpty(session.Print(chain, new PrintOptions { Reading = new ReadPolicy { AllowsOutside = true } }).Prints);
    }

    [Fact]
    public void Of_what_lies_outside_not_even_its_being_there_is_told()
    {
        using var session = new TestSession();
        var there = Problem(session, _place.Put("is.wav", []));
        var not = Problem(session, _place.File("not.wav"));

        Assert.Equal(there.Replace("is.wav", "not.wav", StringComparison.Ordinal), not);
    }

    [Fact]
    public void A_tempo_map_outside_is_told_with_its_line()
    {
        _place.Put("tempo.json", """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 104 } ], "last_bar": 2 }"""u8.ToArray());
        var path = Path.Combine(_session, "a.chain.json");
        File.WriteAllText(path, """
            {
              "chain": 1,
              "song": { "title": "T", "code": "T", "rate_hz": 48000, "tempo": "../../tempo.json" },
              "tracks": { "a": "a.wav" }, "buses": { "b": { "from": { "a": 0 } } }, "prints": [ { "number": 1, "name": "A", "bus": "b" } ]
            }
            """);

        var refused = Assert.Throws<ChainException>(() => ChainReader.Read(path));

        Assert.Contains("a.chain.json:3:", refused.Message, StringComparison.Ordinal);
        Assert.Contains("the tempo map ../../tempo.json is not read", refused.Message, StringComparison.Ordinal);
        Assert.Equal(2, ChainReader.Read(path, reading: new ReadPolicy { AllowsOutside = true }).Song.Tempo!.LastBar);
    }

    [Fact]
    public void Comparing_reads_by_the_same_rule()
    {
        using var session = new TestSession();
        using var other = new TestSession();
        other.Track("kick.wav", Signals.Hits(48000, 1));
        var json = $$"""
            { "chain": 1, "song": { "title": "T", "code": "T", "rate_hz": 48000 },
              "tracks": { "kick": {{Json(other.Folder, "kick.wav")}} },
              "buses": { "b": { "from": { "kick": 0 }, "through": [ { "gain": { "level_db": -1 } } ] } }, "prints": [ { "number": 1, "name": "A", "bus": "b" } ] }
            """;
        var a = Path.Combine(session.Folder, "a.chain.json");
        File.WriteAllText(a, json);

        Assert.Contains("--allow-outside", Assert.Throws<InputException>(() => Comparer.Compare(a, null, new ComparisonOptions { Without = "b/gain" })).Message, StringComparison.Ordinal);
        Assert.NotNull(Comparer.Compare(a, null, new ComparisonOptions { Without = "b/gain", Reading = new ReadPolicy { AllowsOutside = true } }));
    }

    private SessionReach Reach(ReadPolicy? policy = null) => new(policy ?? ReadPolicy.Default, _session);

    private static string Json(string folder, string file) => System.Text.Json.JsonSerializer.Serialize(file.Length == 0 ? folder : Path.Combine(folder, file));

    private static string Problem(TestSession session, string path) => Assert.Throws<InputException>(() => session.Print(session.Chain($$"""
        "tracks": { "a": {{Json(path, "")}} }, "buses": { "b": { "from": { "a": 0 } } }, "prints": [ { "number": 1, "name": "A", "bus": "b" } ]
        """))).Message;
}
