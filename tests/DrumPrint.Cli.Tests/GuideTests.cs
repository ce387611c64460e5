using System.Text.Json;
using DrumPrint.Chains.Reading;
using DrumPrint.Cli.Commands;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Cli.Tests;

/// <summary>The user's guide is run: every command, every quoted line, every chain and every example.</summary>
public sealed class GuideTests(GuideFolder guide) : IClassFixture<GuideFolder>
{
    // Plain arithmetic, with nothing to draw.
    private static readonly string[] WithoutPicture = ["delay", "gain", "polarity", "width"];

    private static readonly JsonDocumentOptions Loose = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    public static TheoryData<string> PagesWithCommands => [.. GuidePage.All.Where(p => p.Commands.Any()).Select(p => p.Name)];

    public static TheoryData<string> Pages => [.. GuidePage.All.Select(p => p.Name)];

    private static GuidePage Processors => Page("processors.md");

    [Theory]
    [MemberData(nameof(PagesWithCommands))]
    public void Every_command_of_a_page_does_and_says_what_the_page_shows(string page) => guide.Follow(Page(page));

    [Fact]
    public void The_way_through_the_guide_is_shown_by_commands() =>
        Assert.Superset(
            new HashSet<string> { "first-session.md", "lining-up.md", "listening.md", "printing.md", "delivering.md", "reprinting.md" },
            new HashSet<string>(GuidePage.All.Where(p => p.Commands.Any(c => c.Quoted.Count > 0)).Select(p => p.Name)));

    [Theory]
    [MemberData(nameof(Pages))]
    public void A_command_is_shown_where_it_is_tested(string page) =>
        Assert.DoesNotContain(Page(page).Blocks, b => b.Kind != "console" && b.Lines.Any(l => l.StartsWith("drumprint ", StringComparison.Ordinal)));

    [Theory]
    [MemberData(nameof(Pages))]
    public void Commands_in_the_text_are_understood(string page) =>
        Assert.All(Page(page).CommandsInText, line => Assert.Empty(CommandLine.Root().Parse(GuidePage.Words(line)).Errors.Select(e => $"{line}: {e.Message}")));

    [Theory]
    [MemberData(nameof(Pages))]
    public void Every_link_and_picture_of_a_page_leads_to_a_file(string page) =>
        Assert.All(Page(page).Links, link => Assert.True(Path.Exists(Repository.File("docs", "guide", link)), $"{page}: {link} leads nowhere."));

    [Fact]
    public void The_page_beside_the_program_in_an_archive_does_and_says_what_it_shows()
    {
        guide.Follow(GuidePage.Archive);

        Assert.NotEmpty(GuidePage.Archive.Commands);
        Assert.All(GuidePage.Archive.CommandsInText, line => Assert.Empty(CommandLine.Root().Parse(GuidePage.Words(line)).Errors));
        Assert.All(GuidePage.Archive.Links, link => Assert.True(Path.Exists(Repository.File(link)), $"{link} leads nowhere."));
    }

    [Fact]
    public void The_first_page_leads_to_every_other()
    {
        var start = Page("README.md").Links.ToHashSet();

        Assert.All(GuidePage.All.Where(p => p.Name != "README.md"), p => Assert.Contains(p.Name, start));
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public void A_whole_chain_on_a_page_can_be_read(string page)
    {
        var chains = Page(page).Blocks.Where(b => b.Kind is "json" or "jsonc").Select(b => string.Join('\n', b.Lines)).Where(t => t.Contains("\"chain\": 1", StringComparison.Ordinal));

        Assert.All(chains, text => Assert.NotEmpty(ChainReader.Parse(text, Path.Combine(Path.GetTempPath(), "guide.chain.json")).Prints));
    }

    [Fact]
    public void Every_processor_has_its_part_with_use_formula_source_and_example()
    {
        var parts = Processors.Text.Split("\n## ").Skip(1).ToDictionary(p => p.Split('\n')[0].Trim(), p => p);

        Assert.Equal(Catalogue.Newest.Select(d => d.Key), parts.Keys);
        Assert.All(parts.Values, part =>
        {
            Assert.Contains("**On drums**", part, StringComparison.Ordinal);
            Assert.Contains("**Formula**", part, StringComparison.Ordinal);
            Assert.Contains("**Source**", part, StringComparison.Ordinal);
        });
        Assert.Equal(WithoutPicture, parts.Where(p => !p.Value.Contains("](../gallery/", StringComparison.Ordinal)).Select(p => p.Key));
        Assert.Equal(Catalogue.Newest.Select(d => d.Key), Examples().Select(NameIn));
    }

    [Fact]
    public void Every_example_of_a_processor_prints_as_it_stands()
    {
        using var folder = new TemporaryFolder();
        var examples = Examples().ToList();
        var buses = examples.Select((text, n) => $$"""  "bus {{n}}": { "from": { "snare": 0 }, "channels": "stereo", "through": [ {{text}} ] },""");
        var prints = examples.Select((_, n) => $$"""  { "number": {{n + 1}}, "name": "P{{n}}", "bus": "bus {{n}}", "level_db": -24 },""");
        Directory.CreateDirectory(folder.File("raw"));
        foreach (var take in new[] { "raw/01_KickIn.wav", "raw/04_SnareTop.wav", "ir/small_space.wav" })
        {
            File.Copy(guide.File($"SlowFerry/{take}"), folder.File($"raw/{Path.GetFileName(take)}"));
        }

        File.WriteAllText(
            folder.File("examples.chain.json"),
            $$"""
            { "chain": 1,
              "song": { "title": "Examples", "code": "Examples", "rate_hz": 48000 },
              "tracks": { "kick": "raw/01_KickIn.wav", "snare": "raw/04_SnareTop.wav" },
              "impulses": { "small space": { "file": "raw/small_space.wav", "layout": "stereo" } },
              "buses": { "key": { "from": { "kick": 0 } },
            {{string.Join('\n', buses)}}
              },
              "prints": [
            {{string.Join('\n', prints)}}
                { "number": 50, "name": "Key", "bus": "key" } ],
              "output": { "over": "lower_together" } }
            """);

        var run = ProgramRun.Of(folder.Path, "print", "examples.chain.json", "--from", "0", "--to", "2", "--quiet");

        Assert.True(run.ExitCode == 0, run.Error);
        Assert.True(Directory.GetFiles(folder.File("excerpt"), "*.wav").Length > examples.Count);
    }

    [Fact]
    public void The_small_chain_prints_as_it_stands_and_stays_under_its_ceilings()
    {
        using var folder = new TemporaryFolder();
        var chain = Assert.Single(Page("printing.md").Blocks, b => b.Kind == "jsonc");
        Directory.CreateDirectory(folder.File("raw"));
        foreach (var take in new[] { "01_KickIn.wav", "04_SnareTop.wav", "06_SnareBottom.wav", "11_OHL.wav", "12_OHR.wav", "13_Front.wav" })
        {
            File.Copy(guide.File($"SlowFerry/raw/{take}"), folder.File($"raw/{take}"));
        }

        File.WriteAllLines(folder.File("Layers.chain.jsonc"), chain.Lines);

        var print = ProgramRun.Of(folder.Path, "print", "Layers.chain.jsonc", "--json");

        Assert.True(print.ExitCode == 0, print.Error);
        using var json = JsonDocument.Parse(print.Output);
        double TruePeakDb(string name) => json.RootElement.GetProperty("prints").EnumerateArray().Single(p => p.GetProperty("name").GetString() == name).GetProperty("true_peak_dbtp").GetDouble();
        Assert.InRange(TruePeakDb("Loud"), -8, -7.5);
        Assert.InRange(TruePeakDb("Air"), -60, -8);
    }

    private static IEnumerable<string> Examples() => Processors.Blocks.Where(b => b.Kind == "json").Select(b => string.Join('\n', b.Lines));

    private static string NameIn(string example)
    {
        using var json = JsonDocument.Parse(example, Loose);
        return Assert.Single(json.RootElement.EnumerateObject()).Name;
    }

    private static GuidePage Page(string name) => Assert.Single(GuidePage.All, p => p.Name == name);
}
