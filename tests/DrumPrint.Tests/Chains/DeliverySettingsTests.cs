using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;

namespace DrumPrint.Tests.Chains;

public sealed class DeliverySettingsTests
{
    private const string Most = """
        "delivery": {
          "names": "{code}-{number}_{name}_v{version}",
          "wishes": [
            { "version": 1, "wish": "Less sub.", "about": ["long gone"] },
            { "version": 2, "wish": "Less kick, please.", "about": ["a", "Kick", "drum bus"], "answer": "2 dB." }
          ]
        }
        """;

    [Fact]
    public void Names_and_wishes_are_read_and_written_again()
    {
        var chain = Read(Most);

        Assert.Equal("{code}-{number}_{name}_v{version}", chain.Delivery.Names);
        Assert.Equal(["Less sub.", "Less kick, please."], chain.Delivery.Wishes.Select(w => w.Text));
        Assert.Equal(["a", "Kick", "drum bus"], chain.Delivery.Wishes[1].About);
        var again = ChainReader.Parse(ChainWriter.Canonical(chain), "again.chain.json");
        Assert.Equal(ChainWriter.Canonical(chain), ChainWriter.Canonical(again));
        Assert.Equal("2 dB.", again.Delivery.Wishes[1].Answer);
    }

    [Fact]
    public void A_chain_that_says_nothing_of_deliveries_is_written_as_it_always_was() =>
        Assert.DoesNotContain("\"delivery\"", ChainWriter.Canonical(Read("\"output\": {}")), StringComparison.Ordinal);

    [Fact]
    public void A_licence_is_read_and_written_again()
    {
        var chain = Read("\"impulses\": { \"room\": { \"file\": \"ir/room.wav\", \"licence\": \"CC0 1.0\", \"pass_on\": true }, \"hall\": \"ir/hall.wav\" }");
        var again = ChainReader.Parse(ChainWriter.Canonical(chain), "again.chain.json");

        Assert.Equal([("CC0 1.0", true), (null, false)], again.Impulses.Select(i => (i.Licence, i.MayBePassedOn)));
    }

    [Theory]
    [InlineData("{number}_{name}", "lacks {version}: without it two files could have one name.")]
    [InlineData("{name}_v{version}", "lacks {number}: without it two files could have one name.")]
    [InlineData("{number} {name} v{version}", "has ' ', which not every system takes in a file name")]
    [InlineData("{number}/{name}_v{version}", "has '/', which not every system takes in a file name")]
    [InlineData("..{number}_v{version}", "has '.', which not every system takes in a file name")]
    [InlineData("{number}_Tür_v{version}", "has 'ü', which not every system takes in a file name")]
    [InlineData("{number}_{names}_v{version}", "has {names}, which stands for nothing. It takes {number}, {name}, {code}, {version}. Did you mean {name}?")]
    [InlineData("{number_v{version}", "has a brace without its other one.")]
    [InlineData("{number}_{number}_v{version}", "has {number} twice. Once is enough.")]
    public void A_pattern_that_could_go_wrong_on_some_system_is_refused_in_a_sentence(string pattern, string problem)
    {
        var e = Assert.Throws<ChainException>(() => Read($$"""  "delivery": { "names": "{{pattern}}" }  """));

        Assert.Contains(problem, Assert.Single(e.Problems).ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{ \"version\": 3, \"wish\": \"More.\" }", "the wish is answered by version 3, but the song is version 2.")]
    [InlineData("{ \"version\": 2, \"wish\": \"More.\", \"about\": [\"kik\"] }", "there is no track, bus, impulse or print called 'kik'. Did you mean 'Kick'?")]
    [InlineData("{ \"version\": 2, \"wish\": \" \" }", "'wish' is empty")]
    public void A_wish_that_names_what_is_not_there_is_refused(string wish, string problem)
    {
        var e = Assert.Throws<ChainException>(() => Read($$"""  "delivery": { "wishes": [ {{wish}} ] }  """));

        Assert.Contains(problem, string.Join('\n', e.Problems), StringComparison.Ordinal);
    }

    private static Chain Read(string rest) => ChainReader.Parse(
        $$"""
        { "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000, "version": 2 },
          "tracks": { "a": "a.wav" }, "buses": { "all": { "from": { "a": 0 } } }, "prints": [ { "number": 1, "name": "Kick", "bus": "all" } ],
          {{rest}} }
        """,
        "test.chain.json");
}
