using DrumPrint.Chains;
using DrumPrint.Chains.Describing;
using DrumPrint.Chains.Reading;

namespace DrumPrint.Tests.Chains;

public sealed class TradeWordTests
{
    [Theory]
    [InlineData("reverb", "convolve")]
    [InlineData("Limiter", "limit")]
    [InlineData("distortion", "saturate")]
    [InlineData("expander", "gate")]
    [InlineData("equalizer", "eq")]
    public void Another_word_of_the_trade_for_a_processor_is_answered_with_its_own(string word, string meant)
    {
        Assert.Contains($"'{word}' is not a processor. Did you mean '{meant}'?", Mistakes($$"""{ "from": { "a": 0 }, "through": [ { "{{word}}": { } } ] }"""), StringComparison.Ordinal);
        Assert.Equal(meant, ProcessorReference.Nearest(word));
    }

    [Fact]
    public void The_threshold_of_a_gate_is_its_opening_level() =>
        Assert.Contains("Did you mean 'open_db'?", Mistakes("""{ "from": { "a": 0 }, "through": [ { "gate": { "threshold_db": -30 } } ] }"""), StringComparison.Ordinal);

    [Fact]
    public void A_processor_beside_the_list_is_told_how_it_stands_in_it()
    {
        const string Words = "'compress' is a processor, and processors stand in a list: \"through\": [ { \"compress\": { … } } ].";

        Assert.Contains(Words, Mistakes("""{ "from": { "a": 0 }, "compress": { } }"""), StringComparison.Ordinal);
        Assert.Contains(Words, Mistakes("""{ "from": { "a": 0 } }""", """, "drum_bus": { "compress": { } }"""), StringComparison.Ordinal);
    }

    private static string Mistakes(string bus, string more = "") => Assert.Throws<ChainException>(() => ChainReader.Parse(
        $$"""
        { "chain": 1,
          "song": { "title": "T", "code": "T", "rate_hz": 48000 },
          "tracks": { "a": "a.wav" },
          "buses": { "b": {{bus}} },
          "prints": [ { "number": 1, "name": "B", "bus": "b" } ]{{more}} }
        """,
        "test.chain.json")).Message;
}
