using DrumPrint.Chains;
using DrumPrint.Printing.Runs;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class LoudPeakTests : IDisposable
{
    // A quarter of the rate, its samples 45° from its peaks: 3.01 dB lie between them (ITU-R BS.1770-5, Annex 2, attachment 1).
    private const double BetweenDb = 3.0103;

    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void The_true_peak_is_told_and_above_a_tenth_under_full_scale_it_is_a_finding()
    {
        Track(peakDb: -1.5);

        var report = _session.Print(Chain(""));

        var print = report.Prints[0];
        Assert.InRange(print.PeakDbfs, -1.51, -1.49);
        Assert.InRange(print.TruePeakDbtp, BetweenDb - 1.5 - 0.2, BetweenDb - 1.5 + 0.2);
        Assert.Contains(report.Findings, f => f.StartsWith("True peak above −0.1 dBTP: 01 A (+1.5", StringComparison.Ordinal));
    }

    [Fact]
    public void Below_that_nothing_is_told()
    {
        Track(peakDb: -3.5);

        Assert.DoesNotContain(_session.Print(Chain("")).Findings, f => f.Contains("True peak", StringComparison.Ordinal));
    }

    [Fact]
    public void True_peak_may_be_what_counts_and_is_refused_then_with_the_level_that_fits()
    {
        Track(peakDb: -1.5);

        var refused = Assert.Throws<OverloadException>(() => _session.Print(Chain("""{ "over_at": "true_peak" }""")));

        Assert.Contains("has a true peak 1.5", refused.Message, StringComparison.Ordinal);
        Assert.Contains("level_db -1.6 would fit", refused.Message, StringComparison.Ordinal);
        Assert.Empty(_session.Files());
    }

    [Fact]
    public void True_peak_may_be_what_counts_and_all_prints_are_lowered_by_it()
    {
        Track(peakDb: -1.5);

        var report = _session.Print(Chain("""{ "over": "lower_together", "over_at": "true_peak" }"""));

        Assert.Equal(-1.6, report.TrimDb, 1);
        Assert.InRange(report.Prints.Max(p => p.TruePeakDbtp), -0.2, 0);
    }

    [Theory]
    [InlineData("""{ "bits": "32f" }""")]
    [InlineData("""{ "bits": "32f", "over_at": "true_peak" }""")]
    public void Floating_point_holds_what_goes_above_full_scale_and_that_is_told(string output)
    {
        Track(peakDb: 2);

        var report = _session.Print(Chain(output));

        Assert.Equal(0, report.TrimDb);
        Assert.InRange(_session.Read("01_A_Test_v1.wav")[0].Max(), 1.2, 1.3);
        Assert.Contains(report.Findings, f => f.StartsWith("Above 0 dBFS: 01 A (+2.0 dBFS)", StringComparison.Ordinal));
    }

    [Fact]
    public void Floating_point_is_lowered_where_the_chain_says_so()
    {
        Track(peakDb: 2);

        Assert.Equal(-2, _session.Print(Chain("""{ "bits": "32f", "over": "lower_together" }""")).TrimDb, 1);
    }

    private void Track(double peakDb)
    {
        var level = Math.Pow(10, peakDb / 20);
        var fade = new double[9600];
        for (var n = 0; n < fade.Length; n++)
        {
            // Slowly in and out, so that nothing but the tone is above it.
            var slope = Math.Min(1, Math.Min(n, fade.Length - 1 - n) / 2000.0);
            fade[n] = level * slope * slope * (3 - (2 * slope)) * ((n & 2) == 0 ? 1 : -1);
        }

        _session.Track("a.wav", fade);
    }

    private Chain Chain(string output) => _session.Chain($$"""
        "tracks": { "a": "a.wav" },
        "buses": { "b": { "from": { "a": 0 } } },
        "prints": [ { "number": 1, "name": "A", "bus": "b" } ]{{(output.Length == 0 ? "" : $", \"output\": {output}")}}
        """);
}
