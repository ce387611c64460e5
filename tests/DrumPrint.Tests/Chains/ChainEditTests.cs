using System.Text;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;

namespace DrumPrint.Tests.Chains;

public sealed class ChainEditTests
{
    private const string Path = "test.chain.json";

    public static TheoryData<string, string> Layouts() => new()
    {
        { "one line", "{ \"chain\": 1, \"song\": { \"title\": \"T\", \"code\": \"T\", \"rate_hz\": 48000 }, \"tracks\": { \"a\": \"a.wav\", \"b\": { \"file\": \"b.wav\" } }, \"buses\": { \"x\": { \"from\": { \"a\": 0, \"b\": 0 } } }, \"prints\": [ { \"number\": 1, \"name\": \"X\", \"bus\": \"x\" } ] }" },
        { "commented", Laid("\n", "  ", " // as it was", true) },
        { "tabs and CRLF", Laid("\r\n", "\t", " /* inside */", true) },
        { "no comma behind the last", Laid("\n", "    ", "", false) },
        { "with a mark", "\uFEFF" + Laid("\n", "  ", " // ä", false) },
    };

    [Theory]
    [MemberData(nameof(Layouts))]
    public void A_value_that_is_set_is_read_and_every_other_byte_stays(string name, string text)
    {
        Assert.NotEmpty(name);
        foreach (var track in new[] { "a", "b" })
        {
            foreach (var (key, json) in new[] { ("delay_ms", "1.25"), ("polarity", "\"inverted\"") })
            {
                var before = Encoding.UTF8.GetBytes(text);

                var after = ChainEdit.Set(before, ["tracks", track], "file", key, json);

                AssertOnlyInserted(before, after);
                var expected = ChainReader.Parse(before, Path).Tracks.Select(t => t.Name != track ? t : key == "polarity" ? t with { IsInverted = true } : t with { Delay = new PathDelay(1.25, Dsp.Parameters.Unit.Milliseconds) });
                Assert.Equal(expected.Select(t => t with { Line = 0 }), ChainReader.Parse(after, Path).Tracks.Select(t => t with { Line = 0 }));
            }
        }
    }

    [Theory]
    [MemberData(nameof(Layouts))]
    public void A_value_that_is_there_is_replaced_alone_and_setting_it_again_changes_nothing(string name, string text)
    {
        Assert.NotEmpty(name);
        var first = ChainEdit.Set(Encoding.UTF8.GetBytes(text), ["tracks", "b"], "file", "delay_ms", "1.25");

        var second = ChainEdit.Set(first, ["tracks", "b"], "file", "delay_ms", "20");

        Assert.Equal(Encoding.UTF8.GetString(first).Replace("1.25", "20", StringComparison.Ordinal), Encoding.UTF8.GetString(second));
        Assert.Same(second, ChainEdit.Set(second, ["tracks", "b"], "file", "delay_ms", "20"));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public void In_a_chain_written_any_which_way_every_track_can_be_set(int seed)
    {
        var canonical = ChainWriter.Canonical(ChainReader.Read(Fixtures.Chain("small.chain.json")));
        var before = Encoding.UTF8.GetBytes(new Reformatted(seed).Write(canonical));
        var chain = ChainReader.Parse(before, Fixtures.Chain("small.chain.json"));

        Assert.All(chain.Tracks, track =>
        {
            var after = ChainEdit.Set(before, ["tracks", track.Name], "file", "level_db", "-1.5");

            Assert.Equal(ChainWriter.Canonical(chain with { Tracks = [.. chain.Tracks.Select(t => t == track ? t with { LevelDb = -1.5 } : t)] }), ChainWriter.Canonical(ChainReader.Parse(after, Fixtures.Chain("small.chain.json"))));
        });
    }

    [Fact]
    public void A_comment_behind_a_value_stays_with_it()
    {
        var text = Laid("\n", "  ", " // as it was", true);

        var after = Encoding.UTF8.GetString(ChainEdit.Set(Encoding.UTF8.GetBytes(text), ["tracks", "b"], "file", "delay_ms", "1"));

        Assert.Contains("\"file\": \"b.wav\", // as it was", after, StringComparison.Ordinal);
    }

    private static string Laid(string lineEnd, string tab, string comment, bool comma) => string.Join(lineEnd,
        "{", tab + "\"chain\": 1,", tab + "\"song\": { \"title\": \"T\", \"code\": \"T\", \"rate_hz\": 48000 },",
        tab + "\"tracks\": {", tab + tab + "\"a\": \"a.wav\"," + comment,
        tab + tab + "\"b\": {", tab + tab + tab + "\"file\": \"b.wav\"" + (comma ? "," : "") + comment, tab + tab + "}" + (comma ? "," : ""),
        tab + "},", tab + "\"buses\": { \"x\": { \"from\": { \"a\": 0, \"b\": 0 } } },",
        tab + "\"prints\": [ { \"number\": 1, \"name\": \"X\", \"bus\": \"x\" } ]" + comment, "}", "");

    // What was there before stands there still, in order, around what came in; a text alone becomes an entry around itself.
    private static void AssertOnlyInserted(byte[] before, byte[] after)
    {
        var at = 0;
        foreach (var value in after)
        {
            at += at < before.Length && before[at] == value ? 1 : 0;
        }

        Assert.Equal(before.Length, at);
        Assert.True(after.Length < before.Length + 60, "more came in than a key and its value");
    }
}
