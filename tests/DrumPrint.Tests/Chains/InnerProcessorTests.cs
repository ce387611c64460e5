using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Diff;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Tests.Chains;

/// <summary>Processors that stand in a band of another.</summary>
public sealed class InnerProcessorTests
{
    private const string Bands = """
        [ { "bands": { "split_hz": 150, "in": [ { "low": { "through": [ { "compress": { "ratio": 3 } }, { "eq": { "bands": [ { "bell": { "freq_hz": 90, "gain_db": 2 } } ] } } ] } }, { "high": { "level_db": -2 } } ] } } ]
        """;

    [Theory]
    [InlineData("\"ratio\": 3", "\"ratoi\": 3", "low.through[0].compress.ratoi: 'ratoi' is not a setting of compress. Did you mean 'ratio'?")]
    [InlineData("\"ratio\": 3", "\"key\": \"out\"", "low.through[0].compress.key: a processor in a band listens to its own band, so it takes no 'key'. Take it out.")]
    [InlineData("\"ratio\": 3", "\"revision\": 1", "low.through[0].compress.revision: 'revision' stands with the processor that makes the bands. Take it out here.")]
    [InlineData("\"ratio\": 3", "\"threshold_db\": { \"for_reduction_db\": 6 }", "low.through[0].compress.threshold_db: 'threshold_db' asks for 'for_reduction_db', which is looked for in the row of a bus only. Give a number here.")]
    [InlineData("\"compress\"", "\"convolve\"", "low.through[0].convolve: 'convolve' is not a processor in a band; there are compress, eq, dynamic_eq, gate, hits, limit, clip, saturate, tape, delay, gain, polarity, phase and width.")]
    [InlineData("\"ratio\": 3", "\"bypass\": true", "low.through[0].compress.bypass: 'bypass' is not a setting of compress. Did you mean 'off'?")]
    [InlineData("\"gain_db\": 2", "\"gain_db\": 2, \"threshold_db\": -20", "low.through[1].eq.bands[0].bell.threshold_db: a band of eq stays as it is set. One that moves with its level is a band of dynamic_eq, which takes 'threshold_db'.")]
    [InlineData("\"gain_db\": 2", "\"gain_db\": 99", "low.through[1].eq.bands[0].bell.gain_db: 'gain_db' is 99 dB; it takes a number from -36 to 36 dB. Nearest: 36.")]
    public void A_mistake_in_a_band_is_told_at_its_place(string right, string wrong, string expected) =>
        Assert.Equal([$"buses.kick.through[0].bands.in[0].{expected}"], Words(Bands.Replace(right, wrong, StringComparison.Ordinal)));

    [Fact]
    public void What_is_written_reads_back_as_what_it_was()
    {
        var chain = Read(Bands.Replace("\"ratio\": 3", "\"ratio\": 3, \"off\": true", StringComparison.Ordinal));

        var text = ChainWriter.Canonical(chain);

        Assert.Contains("\"off\":true", text.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(text, ChainWriter.Canonical(ChainReader.Parse(text, "song.chain.json", Catalogue.All)));
    }

    [Fact]
    public void A_processor_that_is_on_writes_nothing_of_it() => Assert.DoesNotContain("\"off\"", ChainWriter.Canonical(Read(Bands)), StringComparison.Ordinal);

    [Theory]
    [InlineData("\"ratio\": 3", "\"ratio\": 5", "bands low compress ratio 3 → 5")]
    [InlineData("\"gain_db\": 2", "\"gain_db\": 4", "bands low eq bell at 90 Hz gain 2 → 4 dB (2 dB up)")]
    [InlineData("\"ratio\": 3", "\"ratio\": 3, \"off\": true", "bands low compress left out")]
    [InlineData("\"level_db\": -2", "\"level_db\": -2, \"through\": [ { \"clip\": { } } ]", "bands high clip added")]
    [InlineData("{ \"compress\": { \"ratio\": 3 } }, ", "", "bands low compress left out")]
    [InlineData("\"split_hz\": 150", "\"split_hz\": 180", "bands split 150 → 180 Hz")]
    public void A_change_in_a_band_is_one_sentence(string before, string after, string expected)
    {
        var (a, b) = (Read(Bands), Read(Bands.Replace(before, after, StringComparison.Ordinal)));

        Assert.Equal([expected], StageChanges.Of(a.Buses[0].Stages, b.Buses[0].Stages));
    }

    private static Chain Read(string stages) => ChainReader.Parse(Sample.Through(stages), "song.chain.json", Catalogue.All);

    private static string[] Words(string stages) => [.. Assert.Throws<ChainException>(() => Read(stages)).Problems.Select(p => $"{p.Place}: {p.Message}")];
}
