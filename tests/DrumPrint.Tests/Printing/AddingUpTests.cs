using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Store;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>That prints do not add up to the rough is found, and told apart from what rounding leaves.</summary>
public sealed class AddingUpTests : IDisposable
{
    private readonly TestSession _session = new();
    private readonly Kept _kept;

    public AddingUpTests()
    {
        _kept = new Kept(_session);
        _session.Track("a.wav", Signals.Hits(4800, 1));
    }

    public void Dispose() => _session.Dispose();

    // Two prints and the rough: three files, each off by at most half a step; with dither by one and a half.
    [Theory]
    [InlineData(SampleEncoding.Pcm24, 3.0 / (1 << 23), "-128.8", "-128.9")]
    [InlineData(SampleEncoding.Pcm16, 6.0 / (1 << 15), "-74.6", "-74.7")]
    [InlineData(SampleEncoding.Float32, 3.0 / (1 << 24), "-134.8", "-135.0")]
    public void More_than_the_word_length_explains_is_a_finding_and_less_is_none(SampleEncoding encoding, double bound, string left, string most)
    {
        var within = WithNull(encoding, bound * 0.999);
        var beyond = WithNull(encoding, bound * 1.02);

        Assert.True(within.AddsUp);
        Assert.Empty(within.Findings);
        Assert.False(beyond.AddsUp);
        Assert.Equal(
            $"The prints do not add up to the rough: the largest difference is {left} dBFS, at most {most} is expected at this word length.",
            Assert.Single(beyond.Findings));
    }

    [Fact]
    public void Prints_as_they_are_rendered_add_up()
    {
        var report = _kept.Print(Chain, new PrintOptions());

        Assert.True(report.AddsUp);
        Assert.Empty(report.Findings);
    }

    [Fact]
    public void Some_prints_and_a_session_without_rough_say_nothing_of_adding_up()
    {
        Assert.Null(_kept.Print(Chain, new PrintOptions { Only = ["A"] }).AddsUp);
    }

    // A run that renders nothing goes by what was measured when the rough was written.
    private PrintReport WithNull(SampleEncoding encoding, double peak)
    {
        var options = new PrintOptions { Encoding = encoding };
        _kept.Print(Chain, options);
        var key = StoreContents.List(_kept.Store).Where(e => e.Name == "90 RoughPreBus").Select(e => e.Key)
            .First(k => Memo(k).Written!.FileSha256 == FileHash.Sha256(Path.Combine(_session.Prints, "90_RoughPreBus_Test_v1.wav")));
        var memo = Memo(key);
        File.WriteAllBytes(StoreFiles.Memo(_kept.Store, key), PrintMemoText.Of(_kept.Sums, key, memo with { Written = memo.Written! with { NullPeak = peak } }));
        var report = _kept.Print(Chain, options);
        Assert.Empty(Kept.Rendered(report));
        return report;

        PrintMemo Memo(string k) => PrintMemoText.Parse(_kept.Sums, k, File.ReadAllBytes(StoreFiles.Memo(_kept.Store, k)))!;
    }

    private Chain Chain => _session.Chain("""
        "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": -6 } }, "bus b": { "from": { "a": -9 } } },
        "prints": [ { "number": 1, "name": "A", "bus": "bus a" }, { "number": 2, "name": "B", "bus": "bus b" } ], "output": { "tail_s": 0 }
        """);
}
