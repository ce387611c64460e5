using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;

namespace DrumPrint.Tests.Chains;

public sealed class ChainWriterTests
{
    private const string Terse = """
        {"chain":1,"song":{"title":"Ferry","code":"Ferry","rate_hz":48000},"tracks":{"in":"raw/in.wav","out":{"file":"raw/out.wav","polarity":"inverted"}},
        "impulses":{"hall":"ir/hall.wav"},
        "buses":{"kick":{"from":{"in":0,"out":-2},"through":[{"gate":{}},{"eq":{"bands":[{"high_pass":{"freq_hz":35,"slope_db_per_oct":6}}]}}]}},
        "prints":[{"number":1,"name":"Kick","bus":"kick","level_db":-2.5},{"number":2,"name":"Twice","bus":"kick"}]}
        """;

    private const string Chatty = """
        // A chain with much to say.
        {
          "$schema": "chain.schema.json",
          "output": { }, /* nothing of note */
          "prints": [
            { "bus": "kick", "name": "Twice", "number": 2, },
            { "bus": "kick", "level_db": -2.50, "name": "Kick", "number": 1.0, "optional": false },
          ],
          "drum_bus": { "through": [ ] },
          "buses": { "kick": {
            "through": [ { "gate": { "open_db": -36, "revision": 2 } }, { "eq": { "bands": [ { "high_pass": { "slope_db_per_oct": 6, "freq_hz": 3.5e1 } } ] } } ],
            "from": { "in": { "ride": [ ], "delay_ms": 0 }, "out": -2 }, "channels": "auto",
          } },
          "impulses": { "hall": { "layout": "auto", "file": "ir\/hall.wav" } },
          "tracks": { "in": { "file": "raw/in.wav", "level_db": -0 }, "out": { "polarity": "inverted", "file": "raw/\u006fut.wav", }, },
          "song": { "rate_hz": 4.8e4, "code": "Ferry", "title": "Ferry", "version": 1 },
          "chain": 1,
        }
        """;

    private const string Explicit = """
        { "chain": 1,
          "song": { "title": "Ferry", "code": "Ferry", "version": 1, "rate_hz": 48000, "pan_law_db": 0, "temperature_c": 20 },
          "tracks": {
            "in": { "file": "raw/in.wav", "level_db": 0, "polarity": "normal", "delay_m": 0, "convert": false },
            "out": { "file": "raw/out.wav", "level_db": 0, "polarity": "inverted", "convert": false } },
          "impulses": { "hall": { "file": "ir/hall.wav" } },
          "buses": { "kick": { "from": { "in": { "level_db": 0 }, "out": { "level_db": -2, "polarity": "normal" } },
            "through": [ { "gate": { "hold_ms": 60, "soft": true } }, { "eq": { "revision": 1, "bands": [ { "high_pass": { "freq_hz": 35, "slope_db_per_oct": 6 } } ] } } ] } },
          "prints": [ { "number": 1, "name": "Kick", "bus": "kick", "level_db": -2.5 }, { "number": 2, "name": "Twice", "bus": "kick", "level_db": 0 } ],
          "output": { "bits": 24, "dither": "auto", "tail_cap_s": 12, "over": "refuse", "rough": true, "rough_with_bus": { "number": 91 }, "click": false } }
        """;

    [Fact]
    public void Chains_that_mean_the_same_give_one_text()
    {
        var terse = ChainWriter.Canonical(Sample.Read(Terse));
        var chatty = ChainWriter.Canonical(Sample.Read(Chatty));
        var spelled = ChainWriter.Canonical(Sample.Read(Explicit));

        Assert.Equal(terse, chatty);
        Assert.Equal(terse, spelled);
    }

    [Theory]
    [InlineData("\"in\":0,\"out\":-2", "\"out\":-2,\"in\":0")]
    [InlineData("-2.5", "-2.4")]
    [InlineData("\"gate\":{}", "\"gate\":{\"revision\":1}")]
    public void Chains_that_differ_give_different_texts(string from, string to)
    {
        var other = Terse.Replace(from, to, StringComparison.Ordinal);

        Assert.NotEqual(ChainWriter.Canonical(Sample.Read(Terse)), ChainWriter.Canonical(Sample.Read(other)));
    }

    [Fact]
    public void The_canonical_form_spells_out_defaults_and_revisions()
    {
        var text = ChainWriter.Canonical(Sample.Read(Sample.Through("""[ { "compress": { "key": "snare" } }, { "tape": { } } ]""")));

        Assert.Contains(
            """
                    {
                      "compress": {
                        "revision": 1,
                        "key": "snare",
                        "topology": "feed_forward",
                        "threshold_db": -20,
                        "ratio": 4,
                        "attack_ms": 10,
                        "release_ms": 120
                      }
                    },
                    {
                      "tape": {
                        "revision": 1,
                        "oversampling": 8,
                        "speed_in_per_s": 15
                      }
                    }
            """,
            text,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Numbers_are_written_in_the_shortest_form_that_reads_back_the_same()
    {
        var text = ChainWriter.Canonical(Sample.Read(Sample.Chain(buses: """{ "kick": { "from": { "in": 0.1, "out": -0.30000000000000004 } } }""")));

        Assert.Contains("\"level_db\": 0.1,", text, StringComparison.Ordinal);
        Assert.Contains("\"level_db\": -0.30000000000000004,", text, StringComparison.Ordinal);
    }

    // Hashes of tickets from before it came would be wrong otherwise.
    [Theory]
    [InlineData("""{ "eq": { "bands": [ { "bell": { "freq_hz": 300, "gain_db": 3 } } ] } }""", """{ "eq": { "phase": "minimum", "bands": [ { "bell": { "freq_hz": 300, "gain_db": 3, "on": "both" } } ] } }""")]
    [InlineData("""{ "compress": { } }""", """{ "compress": { "on": "both", "link_by": "larger" } }""")]
    [InlineData("""{ "saturate": { } }""", """{ "saturate": { "on": "both" } }""")]
    public void What_a_processor_was_given_later_is_not_written_where_it_is_as_ever(string terse, string spelled)
    {
        var text = Canonical(terse);

        Assert.Equal(text, Canonical(spelled));
        Assert.DoesNotContain("\"on\"", text, StringComparison.Ordinal);
        Assert.DoesNotContain("\"phase\"", text, StringComparison.Ordinal);
        Assert.DoesNotContain("\"link_by\"", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("""{ "eq": { "phase": "linear", "bands": [ { "tilt": { "freq_hz": 300, "gain_db": 3, "on": "side" } } ] } }""", "\"phase\": \"linear\"", "\"on\": \"side\"")]
    [InlineData("""{ "compress": { "on": "mid", "link_by": "sum" } }""", "\"link_by\": \"sum\"", "\"on\": \"mid\"")]
    public void What_a_processor_was_given_later_is_written_where_it_is_used(string stage, string one, string other)
    {
        var text = Canonical(stage);

        Assert.Contains(one, text, StringComparison.Ordinal);
        Assert.Contains(other, text, StringComparison.Ordinal);
        Assert.Equal(text, ChainWriter.Canonical(ChainReader.Parse(text, Path.Combine(Path.GetTempPath(), "later.chain.json"))));
    }

    [Fact]
    public void Letters_of_any_script_stay_readable()
    {
        var text = ChainWriter.Canonical(Sample.Read(Sample.Chain(song: """{ "title": "Überfahrt <„1“> & 'zurück'", "code": "A", "rate_hz": 48000 }""")));

        Assert.Contains("\"title\": \"Überfahrt <„1“> & 'zurück'\"", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_small_example_comes_back_as_it_was()
    {
        var path = Fixtures.Chain("small.chain.json");
        var chain = ChainReader.Read(path);

        var again = ChainReader.Parse(ChainWriter.Canonical(chain), path);

        Same.Chains(chain, again);
    }

    private static string Canonical(string stage) => ChainWriter.Canonical(ChainReader.Parse(
        $$"""
        { "chain": 1, "song": { "title": "Later", "code": "Later", "rate_hz": 48000 }, "tracks": { "snare": "snare.wav" },
          "buses": { "one": { "from": { "snare": 0 }, "channels": "stereo", "through": [ {{stage}} ] } }, "prints": [ { "number": 1, "name": "One", "bus": "one" } ] }
        """,
        Path.Combine(Path.GetTempPath(), "later.chain.json")));
}
