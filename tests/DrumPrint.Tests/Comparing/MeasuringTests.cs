using DrumPrint.Audio;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Comparing;

public sealed class MeasuringTests
{
    private const int Rate = TestSession.Rate;

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(37)]
    [InlineData(-1200)]
    [InlineData(20000)]
    public void A_delay_is_found_to_the_frame(int frames)
    {
        var x = Music.Hits(3);

        var found = Alignment.Find(Music.Sound(x), Wide(x.Delayed(frames)));

        Assert.Equal((frames, false), (found.DelayFrames, found.IsInverted));
        Assert.InRange(found.Correlation, 0.9, 1);
    }

    [Fact]
    public void Opposite_polarity_is_found_with_its_delay()
    {
        var x = Music.Hits(3);

        var found = Alignment.Find(Music.Sound(x), Wide(x.Delayed(5).Times(-0.5)));

        Assert.Equal((5, true), (found.DelayFrames, found.IsInverted));
    }

    [Fact]
    public void Another_sound_at_the_same_time_is_not_moved()
    {
        var x = Music.Hits(3);

        Assert.Equal(0, Alignment.Find(Music.Sound(x), Wide(x.Dulled())).DelayFrames);
        foreach (var sign in new[] { 1, -1 })
        {
            var found = Alignment.Find(Music.Sound(x), Wide(Music.Hits(3, seed: 2).Times(sign)));
            Assert.Equal((0, false, false), (found.DelayFrames, found.IsInverted, found.IsTelling));
        }
    }

    [Fact]
    public void The_best_fit_is_told_where_it_gains_too_little_to_move_B()
    {
        var x = Music.Noise(3 * Rate, 1);

        // Half the power stays in place and a little more comes 40 frames late.
        var found = Alignment.Find(Music.Sound(x), Wide(x.Plus(x.Delayed(40).Times(1.1)).Plus(Music.Noise(3 * Rate, 2))));

        Assert.Equal((0, 40), (found.DelayFrames, found.Unused!.Frames));
        Assert.True(found.Unused.Correlation > found.Correlation);
        Assert.Null(Alignment.Find(Music.Sound(x), Wide(x)).Unused);
        Assert.Null(Alignment.Find(Music.Sound(x), Wide(x.Delayed(40))).Unused);
        Assert.Null(Alignment.Find(Music.Sound(x), Wide(Music.Noise(3 * Rate, 3))).Unused);
    }

    [Theory]
    [InlineData(LevelMatch.Loudness)]
    [InlineData(LevelMatch.Rms)]
    public void Matching_takes_back_a_gain_to_the_last_digit(LevelMatch metric)
    {
        var x = Music.Sound(Music.Hits(4), Music.Hits(4, 2));

        var matching = Matching.Of(x, x.Times(Music.Gain(2.7)), metric, 0);

        Assert.Equal(-2.7, matching.OffsetDb, CompareTolerance.RatioDb);
        Assert.Equal(2.7, matching.B - matching.A, CompareTolerance.RatioDb);
    }

    [Theory]
    [InlineData(LevelMatch.Loudness)]
    [InlineData(LevelMatch.Rms)]
    public void Different_sounds_are_matched_within_0_05_dB_of_the_metric(LevelMatch metric)
    {
        // A soft stretch just above −70 LUFS in A and below it in B: the gate passes it in the one and not in the other.
        var x = Music.Hits(2).Times(Music.Gain(-37)).Concat(Music.Hits(2).Times(Music.Gain(-43))).ToArray();
        var (a, b) = (Music.Sound(x), Music.Sound(x.Dulled(0.2).Times(0.7)));

        var matching = Matching.Of(a, b, metric, 0);
        var matched = b.Times(Music.Gain(matching.OffsetDb));
        var left = metric == LevelMatch.Rms ? Db(matched.Power / a.Power) : SideMeasures.Loudness(matched) - SideMeasures.Loudness(a);

        Assert.InRange(Math.Abs(left), 0, CompareTolerance.MatchDb);
        Assert.Equal(left, matching.LeftOverDb, CompareTolerance.RatioDb);
        Assert.True(Math.Abs(matching.OffsetDb) > 3);
    }

    [Fact]
    public void What_is_left_over_is_the_figure_of_the_final_match()
    {
        // A fade through the gate at −70 LUFS: every try lets more of it in, and the tries run out first.
        var b = Music.Sound([.. Music.Noise(20 * Rate, 1, 1).Select((x, n) => x * Music.Gain(-68 - (n / (double)Rate)))]);
        var a = Music.Sound(Music.Noise(2 * Rate, 2, Music.Gain(-62)));

        var matching = Matching.Of(a, b, LevelMatch.Loudness, 0);
        var left = SideMeasures.Loudness(b.Times(Music.Gain(matching.OffsetDb))) - SideMeasures.Loudness(a);

        Assert.True(Math.Abs(left) > 10 * CompareTolerance.RatioDb);
        Assert.Equal(left, matching.LeftOverDb, CompareTolerance.RatioDb);
    }

    [Fact]
    public void Silence_is_not_matched()
    {
        var matching = Matching.Of(Music.Sound(Music.Hits(1)), Music.Sound(new double[Rate]), LevelMatch.Loudness, 0);

        Assert.Equal((LevelMatch.TrueLevel, 0.0), (matching.Metric, matching.OffsetDb));
    }

    [Fact]
    public void The_same_sound_leaves_nothing()
    {
        var x = Music.Sound(Music.Hits(1));

        var rest = NullTest.Of(x, x, 1, 1, SampleEncoding.Pcm24, SampleEncoding.Pcm24);

        Assert.True(rest.IsIdentical);
        Assert.Equal(double.NegativeInfinity, rest.RmsDb);
        Assert.Equal(double.NegativeInfinity, rest.PeakDbfs);
    }

    // 20·log10(10^(0.1/20) − 1) = −38.7: the depth that a level error of a tenth of a decibel leaves.
    [Theory]
    [InlineData(0.1, -38.73)]
    [InlineData(0.01, -58.77)]
    [InlineData(0.001, -78.77)]
    public void The_null_of_a_level_error_is_as_deep_as_arithmetic_says(double errorDb, double depthDb)
    {
        var x = Music.Sound(Music.Hits(1));

        var rest = NullTest.Of(x, x, 1, Music.Gain(errorDb), SampleEncoding.Float64, SampleEncoding.Float64);

        Assert.Equal(depthDb, rest.RmsDb, 0.01);
    }

    [Theory]
    [InlineData(24, 1)]
    [InlineData(16, 1)]
    [InlineData(16, -1)]
    public void Another_level_is_pure_gain_down_to_the_word_length(int bits, double sign)
    {
        var x = Music.Hits(2);
        var (a, b) = (Rounded(x, bits, 11), Rounded(x.Times(sign * Music.Gain(-3.5)), bits, 12));
        var encoding = bits == 16 ? SampleEncoding.Pcm16 : SampleEncoding.Pcm24;

        var rest = NullTest.Of(Music.Sound(a), Music.Sound(b), sign, 1, encoding, encoding);

        Assert.True(rest.IsPureGain);
        Assert.False(rest.IsIdentical);
        Assert.Equal(3.5, rest.BestGainDb, 0.001);
    }

    [Fact]
    public void A_filter_is_not_pure_gain()
    {
        var x = Music.Hits(2);

        Assert.False(NullTest.Of(Music.Sound(x), Music.Sound(x.Dulled(0.99)), 1, 1, SampleEncoding.Pcm24, SampleEncoding.Pcm24).IsPureGain);
    }

    [Fact]
    public void Two_quiet_sounds_are_not_one_sound_at_two_levels()
    {
        var (x, y) = (Music.Noise(Rate, 1, 3e-5), Music.Noise(Rate, 2, 3e-5));

        Assert.False(NullTest.Of(Music.Sound(Rounded(x, 16, 3)), Music.Sound(Rounded(y, 16, 4)), 1, 1, SampleEncoding.Pcm16, SampleEncoding.Pcm16).IsPureGain);
    }

    [Theory]
    [InlineData(44100, 12.35)]
    [InlineData(88200, 12.351)]
    [InlineData(44100, 61.0077)]
    public void Slices_are_counted_at_rates_that_do_not_divide_by_a_thousand(int rate, double seconds)
    {
        var frames = (int)(seconds * rate);
        var count = (int)((long)frames * Onsets.SlicesPerSecond / rate);
        var short1 = new Sound(rate, [new double[(int)Onsets.FrameAt(count, rate)]]);

        Assert.Equal(count, Onsets.Slices(short1, count).Length);
    }

    // A sine of amplitude a has the power a²/2.
    [Theory]
    [InlineData(31.5, 31.6228)]
    [InlineData(63, 63.0957)]
    [InlineData(1000, 1000)]
    [InlineData(3150, 3162.28)]
    [InlineData(16000, 15848.9)]
    public void A_tone_in_the_middle_of_a_third_octave_is_in_that_band_alone(double nominalHz, double middleHz)
    {
        var tone = Music.Sound(Signals.Sine(6 * Rate, middleHz, 0.5));
        var powers = BandPowers.Of(tone);

        var bands = ThirdOctave.Of(powers, BandPowers.Of(tone.Times(2)));
        var own = bands.Single(b => b.NominalHz.Equals(nominalHz));

        Assert.Equal(10 * Math.Log10(0.125), own.ADb, CompareTolerance.BandDb);
        Assert.Equal(20 * Math.Log10(2), own.DifferenceDb!.Value, CompareTolerance.RatioDb);
        Assert.All(bands.Where(b => b != own), b => Assert.True(b.ADb < own.ADb - 25));
    }

    // ISO 266:1997: preferred frequencies are the exact ones, 10^(n/10), rounded to numbers that are easy to say (0.8 % off at most).
    [Fact]
    public void Bands_are_the_thirty_one_of_the_standard_from_20_Hz_to_20_kHz()
    {
        var powers = BandPowers.Of(Music.Sound(Music.Noise(Rate * 2, 3)));
        var bands = ThirdOctave.Of(powers, powers);

        Assert.Equal(31, bands.Count);
        for (var i = 0; i < bands.Count; i++)
        {
            Assert.InRange(bands[i].NominalHz / Math.Pow(10, (i + 13) / 10.0), 0.985, 1.01);
        }
    }

    [Fact]
    public void All_bands_together_hold_the_whole_power()
    {
        var sound = Music.Sound(Music.Hits(3), Music.Noise(3 * Rate, 4));

        var powers = BandPowers.Of(sound);

        Assert.Equal(0, Db(powers.Total / sound.Power), CompareTolerance.RatioDb);
        Assert.Equal(powers.Total, powers.Between(0, 777) + powers.Between(777, 24000), 1e-12);
    }

    // White noise has as much power in each hertz: a third octave at 1 kHz spans 1000·(10^0.05 − 10^−0.05) Hz of 24 000.
    [Fact]
    public void White_noise_fills_a_band_by_its_width()
    {
        var sound = Music.Sound(Music.Noise(30 * Rate, 5));
        var powers = BandPowers.Of(sound);

        var share = powers.Between(1000 / Math.Pow(10, 0.05), 1000 * Math.Pow(10, 0.05)) / sound.Power;

        Assert.Equal(Db(1000 * (Math.Pow(10, 0.05) - Math.Pow(10, -0.05)) / 24000), Db(share), CompareTolerance.NoiseDb);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(0.001)]
    public void Hits_are_found_where_they_are_at_any_level(double level)
    {
        var x = Music.Hits(5, every: 0.25, from: 0.1).Times(level);

        var found = Onsets.Find(Onsets.Slices(Music.Sound(x)));

        Assert.Equal(20, found.Count);
        for (var i = 0; i < found.Count; i++)
        {
            Assert.Equal(0.1 + (0.25 * i), found[i] / 1000.0, CompareTolerance.OnsetS);
        }
    }

    [Fact]
    public void A_steady_low_tone_is_no_string_of_hits() =>
        Assert.InRange(Onsets.Find(Onsets.Slices(Music.Sound(Signals.Sine(3 * Rate, 41, 0.5)))).Count, 0, 1);

    [Fact]
    public void Attack_and_sustain_are_told_apart()
    {
        var x = Music.Hits(5, decayS: 0.2);
        var y = x.Select((s, n) =>
        {
            var ms = ((n / (double)Rate) - 0.1) * 1000 % 250;
            return s * (ms is >= 0 and < 20 ? 2 : ms >= 40 ? 0.5 : 1);
        }).ToArray();

        var hits = HitDifference.Of(Music.Sound(x), Music.Sound(y));

        Assert.Equal(20, hits.Count);
        Assert.Equal(20 * Math.Log10(2), hits.AttackDb!.Value, 0.05);
        Assert.Equal(-20 * Math.Log10(2), hits.SustainDb!.Value, 0.05);
        Assert.InRange(hits.SustainCount, 19, 20);
    }

    [Fact]
    public void Width_and_mono_loss_are_those_of_textbook_pairs()
    {
        var (x, y) = (Music.Noise(5 * Rate, 6), Music.Noise(5 * Rate, 7));

        var same = SideMeasures.Of(Music.Sound(x, x));
        var unrelated = SideMeasures.Of(Music.Sound(x, y));
        var opposite = SideMeasures.Of(Music.Sound(x, x.Times(-1)));

        Assert.Equal((double.NegativeInfinity, 0.0), (same.WidthDb, same.MonoLossDb));
        Assert.Equal(0, unrelated.WidthDb, CompareTolerance.NoiseDb);
        Assert.Equal(10 * Math.Log10(2), unrelated.MonoLossDb, CompareTolerance.NoiseDb);
        Assert.Equal((double.PositiveInfinity, double.PositiveInfinity), (opposite.WidthDb, opposite.MonoLossDb));
    }

    // As much power again in another region is 3.01 dB more.
    [Fact]
    public void What_a_part_adds_is_counted_where_it_is_added()
    {
        var (middle, low, high) = (Signals.Sine(4 * Rate, 1000, 0.3), Signals.Sine(4 * Rate, 60, 0.3), Signals.Sine(4 * Rate, 5000, 0.15));

        var addition = Addition.Of("ends", BandPowers.Of(Music.Sound(middle.Plus(low).Plus(high))), BandPowers.Of(Music.Sound(middle)))!;

        Assert.Equal(10 * Math.Log10(2.25), addition.TotalDb, CompareTolerance.BandDb);
        Assert.Equal(10 * Math.Log10(2), addition.LowDb, CompareTolerance.BandDb);
        Assert.Equal(0, addition.MiddleDb, CompareTolerance.BandDb);
        Assert.Equal(10 * Math.Log10(1.25), addition.HighDb, CompareTolerance.BandDb);
    }

    private static Sound Wide(double[] x)
    {
        var reach = Alignment.Reach(Rate);
        return Music.Sound([.. new double[reach], .. x, .. new double[reach]]);
    }

    private static double[] Rounded(double[] x, int bits, ulong seed)
    {
        var noise = new DrumPrint.Dsp.Numerics.CounterNoise(seed);
        var steps = 1 << (bits - 1);
        return [.. x.Select((s, n) => Math.Round((s * steps) + (bits == 16 ? (noise.Bipolar(2 * n) + noise.Bipolar((2 * n) + 1)) / 2 : 0)) / steps)];
    }

    private static double Db(double ratio) => 10 * Math.Log10(ratio);
}
