using System.Text;
using DrumPrint.Chains;
using DrumPrint.Chains.Describing;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Files;
using DrumPrint.Live;
using DrumPrint.Printing;
using DrumPrint.Reprinting;
using DrumPrint.Session;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Chains;

/// <summary>Chains that use a recipe: buses and processors that several songs share.</summary>
public sealed class RecipeTests : IDisposable
{
    private const string Recipe = """
        {
          "recipe": 1,
          "impulses": { "hall": "ir/hall.wav" },
          "buses": {
            "kick": { "from": { "kick in": 0 }, "channels": "mono" },
            "snare": { "from": { "snare top": 0 }, "through": [ { "gain": { "level_db": -6 } } ] },
            "space": { "from": { "snare": 0 }, "through": [ { "convolve": { "impulse": "hall" } } ] },
          },
          "prints": [ { "number": 1, "name": "Kick", "bus": "kick" }, { "number": 2, "name": "Snare", "bus": "snare" }, { "number": 3, "name": "Space", "bus": "space" } ],
          "output": { "bits": "32f", "tail_s": 0 },
        }
        """;

    private readonly TestSession _session = new();

    public RecipeTests()
    {
        Directory.CreateDirectory(Path.Combine(_session.Folder, "song"));
        _session.Track("song/kick.wav", Noise("kick"));
        _session.Track("song/snare.wav", Noise("snare"));
        _session.Track("ir/hall.wav", [1, 0.5, 0.25]);
        Put("album.recipe.json", Recipe);
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_chain_that_uses_a_recipe_is_the_chain_with_all_of_it_written_out()
    {
        var used = Read("\"use\": \"../album.recipe.json\"");
        var written = ChainReader.Parse(Text(Recipe[(Recipe.IndexOf("\"impulses\"", StringComparison.Ordinal))..Recipe.LastIndexOf('}')].Replace("ir/hall.wav", "../ir/hall.wav", StringComparison.Ordinal)), ChainPath);

        Assert.Equal(ChainWriter.Canonical(written), ChainWriter.Canonical(used));
        Assert.Equal("../album.recipe.json", used.Uses!.File);
    }

    [Fact]
    public void What_both_give_is_the_chains()
    {
        var chain = Read("""
            "use": "../album.recipe.json",
            "buses": { "snare": { "from": { "snare top": -3 } }, "kit": { "from": { "kick": 0, "snare": 0 } } },
            "prints": [ { "number": 3, "name": "Kit", "bus": "kit" } ],
            "output": { "bits": 16, "tail_s": 0 }
            """);

        Assert.Equal(["kick", "snare", "space", "kit"], chain.Buses.Select(b => b.Name));
        Assert.Empty(chain.Buses[1].Stages);
        Assert.Equal(["Kick", "Snare", "Kit"], chain.Prints.Select(p => p.Name));
        Assert.Equal(DrumPrint.Audio.SampleEncoding.Pcm16, chain.Output.Encoding);
        Assert.True(chain.Uses!.Holds("buses.kick") && !chain.Uses.Holds("buses.snare") && !chain.Uses.Holds("prints.3") && !chain.Uses.Holds("output"));
    }

    [Fact]
    public void What_is_replaced_need_not_fit_the_song()
    {
        Put("album.recipe.json", Recipe.Replace("\"kick in\": 0", "\"kick sub\": 0", StringComparison.Ordinal));

        Assert.Contains("album.recipe.json:5:25: buses.kick.from.kick sub: there is no track or bus called 'kick sub'.", Assert.Single(Mistakes("\"use\": \"../album.recipe.json\"")), StringComparison.Ordinal);
        Assert.Equal("kick in", Read("\"use\": \"../album.recipe.json\", \"buses\": { \"kick\": { \"from\": { \"kick in\": 0 } } }").Buses[0].Feeds[0].Source);
    }

    [Fact]
    public void Mistakes_name_the_file_and_the_line_they_stand_in()
    {
        Put("album.recipe.json", Recipe.Replace("\"level_db\": -6", "\"level_db\": \"loud\"", StringComparison.Ordinal));
        Assert.Contains("album.recipe.json:6:81: buses.snare.through[0].gain.level_db: 'level_db' is the text \"loud\"", Assert.Single(Mistakes("\"use\": \"../album.recipe.json\"")), StringComparison.Ordinal);

        Put("album.recipe.json", "{ \"recipe\": 1, \"tracks\": {}, \"buses\": { \"a\": { \"from\": { \"kick in\": 0 } } } }");
        Assert.Contains("tracks: 'tracks' is each song's own; it stands in the chain and not in a recipe.", Assert.Single(Mistakes("\"use\": \"../album.recipe.json\"")), StringComparison.Ordinal);

        Put("album.recipe.json", "{ \"recipe\": 1, \"buses\": { \"a\": { \"from\": { \"kick in\": 0 } } } }");
        Assert.Contains(":1:", Assert.Single(Mistakes("\"use\": \"../album.recipe.json\"")), StringComparison.Ordinal);
        Assert.Contains("there is no print, neither here nor in ../album.recipe.json", Assert.Single(Mistakes("\"use\": \"../album.recipe.json\"")), StringComparison.Ordinal);

        Put("album.recipe.json", "{ \"recipe\": 1, ");
        Assert.Contains("album.recipe.json:1:", Assert.Single(Mistakes("\"use\": \"../album.recipe.json\"")), StringComparison.Ordinal);
        Assert.Contains("there is no such file", Assert.Single(Mistakes("\"use\": \"../albun.recipe.json\"")), StringComparison.Ordinal);
        Assert.Contains("written in format 9", Recipe9(), StringComparison.Ordinal);

        string Recipe9()
        {
            Put("album.recipe.json", "{ \"recipe\": 9 }");
            return Assert.Single(Mistakes("\"use\": \"../album.recipe.json\""));
        }
    }

    [Fact]
    public void A_recipe_lies_within_the_reach_of_the_session()
    {
        var e = Assert.Single(Mistakes("\"use\": \"../../elsewhere.recipe.json\""));

        Assert.Contains("the recipe ../../elsewhere.recipe.json is not read: that lies outside the session", e, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_recipe_buses_and_prints_are_missing_as_before()
    {
        Assert.Equal(2, Mistakes("\"impulses\": {}").Count);
        Assert.Throws<UsageException>(() => ChainReader.Read(Path.Combine(_session.Folder, "album.recipe.json")));
    }

    [Fact]
    public void Its_ticket_is_whole_in_itself_and_prints_are_made_again_without_the_recipe()
    {
        Put("song/test.chain.json", Text("\"use\": \"../album.recipe.json\""));
        SessionPrinter.Print(ChainReader.Read(ChainPath), new PrintOptions());
        File.Delete(Path.Combine(_session.Folder, "album.recipe.json"));

        var ticket = Ticket.Read(Path.Combine(_session.Folder, "song", "prints", "Test_v1.ticket.json"));
        Assert.Null(ticket.Chain.Uses);
        Assert.Equal(3, ticket.Chain.Buses.Count);
        Assert.True(Reprinter.Reprint(Path.Combine(_session.Folder, "song", "prints"), new ReprintOptions()).IsIdentical);
    }

    [Fact]
    public void What_fails_in_a_bus_of_the_recipe_is_told_with_the_recipes_line()
    {
        File.Delete(Path.Combine(_session.Folder, "ir", "hall.wav"));

        var e = Assert.Throws<InputException>(() => SessionInputs.Open(Read("\"use\": \"../album.recipe.json\""), ReadPolicy.Default));

        Assert.Contains("album.recipe.json:3: impulse 'hall': ../ir/hall.wav: there is no such file", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_bench_writes_nothing_into_a_recipe_and_hears_when_it_changes()
    {
        Put("song/test.chain.json", Text("\"use\": \"../album.recipe.json\""));
        var desk = new ChainDesk(ChainPath);
        desk.Allow();

        var e = Assert.Throws<UsageException>(() => desk.Write([new ChainValue(["buses", "snare", "through", "0", "gain"], "level_db", "-3")]));
        Assert.Contains("stands in ../album.recipe.json", e.Message, StringComparison.Ordinal);

        e = Assert.Throws<UsageException>(() => desk.Write([new ChainValue(["prints", ChainDesk.RecipePrint + "2"], "level_db", "-3")]));
        Assert.Contains("prints.2 stands in ../album.recipe.json", e.Message, StringComparison.Ordinal);

        Put("album.recipe.json", Recipe.Replace("\"level_db\": -6", "\"level_db\": -4", StringComparison.Ordinal));
        Assert.Contains("gain level −6 → −4 dB", string.Join(' ', desk.Look()!.Sentences), StringComparison.Ordinal);
        Assert.Null(desk.Look());
    }

    [Fact]
    public void The_schema_lets_a_recipe_stand_for_buses_and_prints()
    {
        var schema = Json.Schema.JsonSchema.FromText(ChainSchema.Text());
        bool Fits(string text) => schema.Evaluate(System.Text.Json.JsonDocument.Parse(text, new System.Text.Json.JsonDocumentOptions { AllowTrailingCommas = true }).RootElement).IsValid;

        Assert.True(Fits(Text("\"use\": \"../album.recipe.json\"")));
        Assert.False(Fits(Text("\"impulses\": {}")));
        var recipes = Json.Schema.JsonSchema.FromText(ChainSchema.RecipeText());
        Assert.True(recipes.Evaluate(System.Text.Json.JsonDocument.Parse(Recipe, new System.Text.Json.JsonDocumentOptions { AllowTrailingCommas = true }).RootElement).IsValid);
    }

    private static double[] Noise(string name) => [.. Enumerable.Range(0, 4000).Select(n => 0.2 * ((2 * CounterNoise.FromName(name).Unit(n)) - 1))];

    private string ChainPath => Path.Combine(_session.Folder, "song", "test.chain.json");

    private static string Text(string rest) => $$"""
        { "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000 }, "tracks": { "kick in": "kick.wav", "snare top": "snare.wav" }, {{rest}} }
        """;

    private Chain Read(string rest) => ChainReader.Parse(Text(rest), ChainPath);

    private List<string> Mistakes(string rest) => [.. Assert.Throws<ChainException>(() => Read(rest)).Problems.Select(p => p.ToString())];

    private void Put(string file, string text) => File.WriteAllText(Path.Combine(_session.Folder, file), text, new UTF8Encoding(false));
}
