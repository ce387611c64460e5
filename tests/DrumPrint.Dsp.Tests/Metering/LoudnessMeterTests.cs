using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Metering;

/// <summary>Test signals and readings of EBU Tech 3341 (v4, Table 1) and Tech 3342 (Table 1), and of ITU-R BS.1770-5.
/// Cases that need five channels or the EBU's own recordings are left out.</summary>
public sealed class LoudnessMeterTests
{
    private const double Silence = double.NegativeInfinity;

    // ITU-R BS.1770-5: 0 dBFS at 997 Hz in one channel reads −3.01.
    [Theory]
    [InlineData(32000)]
    [InlineData(44100)]
    [InlineData(48000)]
    [InlineData(96000)]
    [InlineData(192000)]
    public void A_full_scale_sine_in_one_channel_reads_minus_3_01(int rate)
    {
        var meter = Tones.Measure([(3.5, 0)], rate, channels: 1, freqHz: 997);

        Assert.Equal(-3.01, meter.IntegratedLufs, rate == 48000 ? MeterTolerance.ExactLu : MeterTolerance.WeightingRateDb);
    }

    // Forty seconds, of which the last three to six are remembered slice by slice.
    [Theory]
    [InlineData(44100)]
    [InlineData(48000)]
    public void What_is_remembered_by_its_windows_alone_gives_the_same_figures_to_the_last_bit(int rate)
    {
        var sound = Signals.Hits(40 * rate, 30000, 3000);
        sound.AsSpan(5 * rate, 3 * rate).Fill(0.9);
        var format = new AudioFormat(rate, 1);
        var (whole, folded) = (new LoudnessMeter(format, sound.Length), new LoudnessMeter(format, sound.Length, null, rememberedSlices: 300));

        for (var start = 0; start < sound.Length; start += 4096)
        {
            var block = new AudioBlock([sound], start, Math.Min(4096, sound.Length - start));
            whole.Add(block);
            folded.Add(block);
        }

        Assert.Equal(Figures(whole), Figures(folded));
        whole.Keep(sound.Length - (rate / 3));
        folded.Keep(sound.Length - (rate / 3));
        Assert.Equal(Figures(whole), Figures(folded));
        Assert.Throws<ArgumentOutOfRangeException>(() => folded.Keep(rate));

        static double[] Figures(LoudnessMeter meter) => [meter.IntegratedLufs, meter.RangeLu, meter.MomentaryMaxLufs, meter.ShortTermMaxLufs];
    }

    [Theory]
    [InlineData(-23, -23)]
    [InlineData(-33, -33)]
    public void Tech_3341_cases_1_and_2_steady_tones(double peakDb, double lufs)
    {
        var meter = Tones.Measure([(20, peakDb)]);

        Assert.Equal(lufs, meter.IntegratedLufs, MeterTolerance.LoudnessLu);
        Assert.Equal(lufs, meter.MomentaryMaxLufs, MeterTolerance.LoudnessLu);
        Assert.Equal(lufs, meter.ShortTermMaxLufs, MeterTolerance.LoudnessLu);
    }

    public static TheoryData<int, double[]> GatedCases { get; } = new()
    {
        { 3, [10, -36, 60, -23, 10, -36] },
        { 4, [10, -72, 10, -36, 60, -23, 10, -36, 10, -72] },
        { 5, [20, -26, 20.1, -20, 20, -26] },
    };

    [Theory]
    [MemberData(nameof(GatedCases))]
    public void Tech_3341_cases_3_to_5_gated_tones(int number, double[] secondsAndLevels)
    {
        var meter = Tones.Measure([.. secondsAndLevels.Chunk(2).Select(p => (p[0], p[1]))]);

        Assert.InRange(number, 3, 5);
        Assert.Equal(-23, meter.IntegratedLufs, MeterTolerance.LoudnessLu);
    }

    [Fact]
    public void Tech_3341_case_9_short_term_of_alternating_tones() =>
        Assert.Equal(-23, Tones.Measure(Repeated(5, (1.34, -20), (1.66, -30))).ShortTermMaxLufs, MeterTolerance.LoudnessLu);

    [Fact]
    public void Tech_3341_case_12_momentary_of_alternating_tones() =>
        Assert.Equal(-23, Tones.Measure(Repeated(25, (0.18, -20), (0.22, -30))).MomentaryMaxLufs, MeterTolerance.LoudnessLu);

    [Fact]
    public void Tech_3341_case_10_short_term_wherever_the_tone_starts()
    {
        for (var i = 0; i < 20; i += 3)
        {
            Assert.Equal(-23, Tones.Measure([(i * 0.15, Silence), (3, -23), (1, Silence)]).ShortTermMaxLufs, MeterTolerance.LoudnessLu);
        }
    }

    [Fact]
    public void Tech_3341_case_11_short_term_follows_rising_tones() =>
        Assert.Equal(
            -19,
            Tones.Measure([.. Enumerable.Range(0, 20).SelectMany(i => new[] { (i * 0.15, Silence), (3, -38.0 + i), (3 - (i * 0.15), Silence) })]).ShortTermMaxLufs,
            MeterTolerance.LoudnessLu);

    [Fact]
    public void Tech_3341_case_13_momentary_wherever_the_tone_starts()
    {
        for (var i = 0; i < 20; i++)
        {
            Assert.Equal(-23, Tones.Measure([(i * 0.02, Silence), (0.4, -23), (1, Silence)]).MomentaryMaxLufs, MeterTolerance.LoudnessLu);
        }
    }

    [Fact]
    public void Tech_3341_case_14_momentary_follows_rising_tones() =>
        Assert.Equal(
            -19,
            Tones.Measure([.. Enumerable.Range(0, 20).SelectMany(i => new[] { (i * 0.02, Silence), (0.4, -38.0 + i), (0.4 - (i * 0.02), Silence) })]).MomentaryMaxLufs,
            MeterTolerance.LoudnessLu);

    public static TheoryData<double, double[]> RangeCases { get; } = new()
    {
        { 10, [-20, -30] },
        { 5, [-20, -15] },
        { 20, [-40, -20] },
        { 15, [-50, -35, -20, -35, -50] },
    };

    [Theory]
    [MemberData(nameof(RangeCases))]
    public void Tech_3342_cases_1_to_4_range(double expected, double[] levels)
    {
        var meter = Tones.Measure([.. levels.Select(l => (20.0, l))]);

        Assert.Equal(expected, meter.RangeLu, MeterTolerance.RangeLu);
    }

    // Case 4 above cannot tell whether there is an absolute gate; these can.
    [Fact]
    public void Nothing_below_minus_70_counts()
    {
        Assert.Equal(-69.7, Tones.Measure([(5, -69.7)]).IntegratedLufs, MeterTolerance.LoudnessLu);
        Assert.Equal(double.NegativeInfinity, Tones.Measure([(5, -70.3)]).IntegratedLufs);
    }

    [Fact]
    public void Silence_and_less_than_a_window_read_minus_infinity()
    {
        Assert.Equal(double.NegativeInfinity, Tones.Measure([(4, Silence)]).MomentaryMaxLufs);
        Assert.Equal(double.NegativeInfinity, Tones.Measure([(0.39, -10)]).IntegratedLufs);
        Assert.Equal(double.NegativeInfinity, Tones.Measure([(2.9, -10)]).ShortTermMaxLufs);
        Assert.Equal(0, Tones.Measure([(4, Silence)]).RangeLu);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(48001)]
    public void Where_blocks_are_cut_changes_no_bit(int blockFrames)
    {
        (double, double)[] stretches = [(1.3, -20), (1, -31), (1.7, -12)];

        var whole = Tones.Measure(stretches, 44100, blockFrames: 4800);
        var cut = Tones.Measure(stretches, 44100, blockFrames: blockFrames);

        Assert.Equal(
            (whole.IntegratedLufs, whole.MomentaryMaxLufs, whole.ShortTermMaxLufs, whole.RangeLu),
            (cut.IntegratedLufs, cut.MomentaryMaxLufs, cut.ShortTermMaxLufs, cut.RangeLu));
    }

    // Computed from the tables of BS.1770-5 at 48 kHz.
    [Theory]
    [InlineData(20, -13.2754)]
    [InlineData(50, -3.9341)]
    [InlineData(100, -1.1335)]
    [InlineData(997, 0.69101)]
    [InlineData(2000, 3.0713)]
    [InlineData(10000, 4.0419)]
    public void The_weighting_is_that_of_the_tables(double freq, double db) =>
        Assert.Equal(db, Response.DbAt(KWeighting.Sections(48000), freq, 48000), MeterTolerance.WeightingDb);

    [Theory]
    [InlineData(44100)]
    [InlineData(88200)]
    [InlineData(96000)]
    [InlineData(192000)]
    public void Other_rates_weigh_as_48_kHz_does(int rate)
    {
        var worst = Response.AudibleFrequencies().Max(f =>
            Math.Abs(Response.DbAt(KWeighting.Sections(rate), f, rate) - Response.DbAt(KWeighting.Sections(48000), f, 48000)));

        Assert.InRange(worst, 0, MeterTolerance.WeightingRateDb);
    }

    private static (double Seconds, double PeakDb)[] Repeated(int times, params (double, double)[] stretches) =>
        [.. Enumerable.Repeat(stretches, times).SelectMany(s => s)];
}
