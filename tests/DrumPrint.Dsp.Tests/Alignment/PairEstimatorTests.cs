using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Tests.Alignment.Truth;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Alignment;

/// <summary>Known delays and polarities, found again. The phase transform and its peak's sign are those of Knapp and Carter 1976.
/// Jillings, Clifford and Reiss, AES Convention 134 (2013), paper 8852, count ±2 samples as right. Ours are held to parts of
/// one.</summary>
public sealed class PairEstimatorTests
{
    private const int Rate = 48000;
    private const double PartOfFrame = 0.05;

    [Theory]
    [InlineData(0)]
    [InlineData(37)]
    [InlineData(500)]
    [InlineData(1300)]
    [InlineData(-150)]
    public void A_whole_delay_is_found_to_a_twentieth_of_a_frame(int frames)
    {
        var x = Drum();

        var found = Found(x, Moved(x, frames));

        Assert.Equal(frames, found.DelayFrames, PartOfFrame);
        Assert.Equal((true, PairPolarity.Same), (found.IsDelayKnown, found.Polarity));
        Assert.InRange(found.SpreadFrames, 0, 0.1);
        Assert.InRange(found.LowSumDb, 2.9, 3.02);
    }

    [Theory]
    [InlineData(0.25)]
    [InlineData(3.4)]
    [InlineData(52.8)]
    public void A_part_of_a_frame_is_found_to_a_twentieth(double frames)
    {
        var x = Drum();
        var filter = new DrumPrint.Dsp.Filters.FractionalDelay(frames);
        var y = x.ToArray();
        filter.Process(y);

        var found = Found(x, y);

        Assert.Equal(frames + filter.LatencyFrames, found.DelayFrames, PartOfFrame);
    }

    [Fact]
    public void A_microphone_upside_down_is_opposite_at_the_same_place()
    {
        var x = Drum();

        var found = Found(x, [.. Moved(x, 127).Select(v => -0.1 * v)]);

        Assert.Equal(127, found.DelayFrames, PartOfFrame);
        Assert.Equal((PairPolarity.Opposite, true), (found.Polarity, found.FitsInverted));
        Assert.InRange(found.LowSumDb, double.NegativeInfinity, -20);
    }

    [Fact]
    public void Noise_as_loud_as_the_hits_in_the_second_microphone_leaves_delay_and_polarity_as_they_are()
    {
        var x = Drum();
        var noise = Signals.Noise(x.Length, 5, 0.3);

        var found = Found(x, [.. Moved(x, 127).Zip(noise, (a, b) => b - a)]);

        Assert.Equal(127, found.DelayFrames, 0.3);
        Assert.Equal(PairPolarity.Opposite, found.Polarity);
    }

    [Fact]
    public void Of_another_take_and_of_silence_nothing_is_told()
    {
        var x = Drum();

        foreach (var other in new[] { Drum(9, 11000), Signals.Noise(x.Length, 3), Signals.Silence(x.Length) })
        {
            var found = Found(x, other);
            Assert.Equal((false, PairPolarity.CannotBeTold), (found.IsDelayKnown, found.Polarity));
        }

        var silent = Found(Signals.Silence(Rate), x);
        Assert.Equal((0, 0.0), (silent.Hits, silent.Confidence));
    }

    [Fact]
    public void Two_hits_are_too_few_to_tell()
    {
        var x = Drum()[..(Rate / 2)];

        Assert.False(Found(x, Moved(x, 20)).IsDelayKnown);
    }

    // Equal copies of either sign: what stands as high upside down elsewhere is no fact.
    [Fact]
    public void Where_the_other_sign_fits_as_well_nothing_is_told()
    {
        var x = Drum();

        var found = Found(x, [.. Moved(x, 100).Zip(Moved(x, 300), (a, b) => a - b)]);

        Assert.Equal((false, PairPolarity.CannotBeTold), (found.IsDelayKnown, found.Polarity));
    }

    // The highs say same, the lows say opposite: a snare from above and below does so.
    [Fact]
    public void A_low_band_that_contradicts_the_peak_leaves_the_polarity_untold()
    {
        var x = Drum();
        var low = x.ToArray();
        new DrumPrint.Dsp.Filters.FilterCascade(DrumPrint.Dsp.Filters.BiquadDesign.LowPass(600, 2, Rate)).Process(low);

        var found = Found(x, [.. x.Zip(low, (a, b) => a - (2 * b))]);

        Assert.Equal(0, found.DelayFrames, 0.3);
        Assert.Equal(PairPolarity.CannotBeTold, found.Polarity);
        Assert.InRange(found.LowSumDb, double.NegativeInfinity, -1);
    }

    [Fact]
    public void The_level_of_either_microphone_changes_nothing()
    {
        var x = Drum();
        var y = Moved(x, 60);

        var (here, there) = (Found(x, y), Found([.. x.Select(v => v / 1024)], [.. y.Select(v => v * 4)]));

        Assert.Equal(here.DelayFrames, there.DelayFrames, 1e-9);
        Assert.Equal((here.Hits, here.Polarity), (there.Hits, there.Polarity));
    }

    [Fact]
    public void Hits_are_the_same_however_the_sound_comes_in()
    {
        var x = Drum();
        var whole = HitFinder.Find(x, 44100);
        var finder = new HitFinder(44100);
        for (var from = 0; from < x.Length; from += 1001)
        {
            finder.Add(x.AsSpan(from, Math.Min(1001, x.Length - from)));
        }

        var pieces = finder.Found();

        Assert.Equal(whole.Hits.Select(h => h.Frame), pieces.Hits.Select(h => h.Frame));
        Assert.Equal(whole.BrightHits.Select(h => h.Frame), pieces.BrightHits.Select(h => h.Frame));
    }

    // A few scenes of the truth set; docs/conformance.md has all of them.
    [Theory]
    [InlineData(4)]
    [InlineData(7)]
    [InlineData(13)]
    public void In_a_room_with_spill_and_cymbals_what_is_told_is_true(int scene)
    {
        foreach (var pair in TruthScene.Pairs(scene))
        {
            var found = PairEstimator.Of(pair.Close, pair.Other, pair.RateHz);

            Assert.True(found.IsDelayKnown, $"{pair.Kind}: {found}");
            Assert.InRange((found.DelayFrames - pair.LagFrames) * 48000 / pair.RateHz, -pair.ToleranceFrames, pair.ToleranceFrames);
            Assert.Equal(pair.IsInverted ? PairPolarity.Opposite : PairPolarity.Same, found.Polarity);
        }
    }

    private static PairEstimate Found(double[] close, double[] other) => PairEstimator.Of(close, other, Rate);

    private static double[] Drum(ulong seed = 1, int every = 12000) =>
        [.. Signals.Hits(10 * Rate, every, 400, seed).Select((v, n) => n < every ? 0 : v)];

    private static double[] Moved(double[] x, int frames) =>
        [.. Enumerable.Range(0, x.Length).Select(n => n - frames >= 0 && n - frames < x.Length ? x[n - frames] : 0)];
}
