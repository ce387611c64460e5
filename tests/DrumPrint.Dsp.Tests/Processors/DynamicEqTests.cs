using System.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

public sealed class DynamicEqTests
{
    private const int Rate = 48000;
    private const double Rounding = 1e-12;
    private const double CurveDb = 0.05;

    // Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. 4: what a compressor makes of a steady level.
    [Theory]
    [InlineData(-40, 2, 0)]
    [InlineData(-24, 4, 0)]
    [InlineData(-24, 4, 12)]
    [InlineData(-10, 10, 6)]
    [InlineData(0, 3, 0)]
    public void A_tone_in_the_middle_of_a_bell_follows_the_curve_of_a_compressor(double threshold, double ratio, double knee)
    {
        foreach (var level in new[] { -60.0, -30, -18, -6 })
        {
            var found = Through(Bell(400, 2, threshold, ratio, knee), 400, level);

            Assert.Equal(Curve(level, threshold, ratio, knee), found, CurveDb);
        }
    }

    // Regalia and Mitra, IEEE Trans. ASSP 35(1), 1987: 1 + (K - 1) · H, with H one half of what an all-pass leaves.
    [Fact]
    public void A_tone_beside_the_middle_is_turned_down_as_the_part_put_back_says()
    {
        var step = Step(Bell(400, 2, -40, 100, 0));
        double[] loud = Tone(400, -6);
        foreach (var beside in new[] { 100.0, 300, 800, 3000 })
        {
            // The loud one sets the gain; the other is soft enough to leave it alone.
            double[] mixed = [.. loud.Zip(Tone(beside, -70), (a, b) => a + b)];
            var late = WholeSignal.Through([mixed], Rate, step)[0].AsSpan(48000, 48000).ToArray();
            var alone = WholeSignal.Through([loud], Rate, step)[0].AsSpan(48000, 48000).ToArray();
            var k = Math.Pow(10, (Level(alone, 400) + 6) / 20);

            // The band of an analog bell, its axis bent as the bilinear transform does: s / q over (s² + s / q + 1).
            var w = Math.Tan(Math.PI * beside / Rate) / Math.Tan(Math.PI * 400 / Rate);
            var band = new Complex(0, w / 2) / new Complex(1 - (w * w), w / 2);
            var expected = 20 * Math.Log10((1 + ((k - 1) * band)).Magnitude) - 70;
            Assert.Equal(expected, Level([.. late.Zip(alone, (a, b) => a - b)], beside), 0.2);
        }
    }

    [Theory]
    [InlineData(false, 60, 5000)]
    [InlineData(true, 9000, 100)]
    public void A_shelf_turns_down_its_own_side(bool isHigh, double inside, double outside)
    {
        const double threshold = -40;
        const double ratio = 4;
        var kind = isHigh ? DynamicEq.HighShelf : DynamicEq.LowShelf;
        var step = Step(kind.With((kind.Freq, 600.0), (kind.Threshold, threshold), (kind.Ratio, ratio), (kind.Knee, 0.0), (kind.Release, 400.0)));

        // s / (1 + s) above, 1 / (1 + s) below, the axis bent as the bilinear transform does.
        var w = Math.Tan(Math.PI * inside / Rate) / Math.Tan(Math.PI * 600 / Rate);
        var part = (isHigh ? new Complex(0, w) : Complex.One) / new Complex(1, w);
        var reduction = (-10 + (20 * Math.Log10(part.Magnitude)) - threshold) * (1 - (1 / ratio));
        var expected = -10 + (20 * Math.Log10((1 + ((Math.Pow(10, -reduction / 20) - 1) * part)).Magnitude));
        Assert.Equal(expected, Level(WholeSignal.Through([Tone(inside, -10)], Rate, step)[0].AsSpan(48000, 48000).ToArray(), inside), 0.2);
        Assert.True(expected < -25);

        Assert.Equal(-30, Level(WholeSignal.Through([Tone(outside, -30)], Rate, step)[0].AsSpan(48000, 48000).ToArray(), outside), 0.1);
    }

    [Fact]
    public void Below_its_threshold_a_band_changes_nothing()
    {
        var input = Signals.Noise(30000, 3);

        var output = WholeSignal.Through([input, input], Rate, Step(Bell(300, 4, 20, 4, 0), Bell(3000, 1, 20, 4, 0)));

        Assert.All(output[0].Take(30000).Zip(input), pair => Assert.Equal(pair.Second, pair.First, Rounding));
        Assert.Equal(output[0], output[1]);
    }

    [Fact]
    public void A_key_in_the_band_turns_it_down_and_one_beside_it_does_not()
    {
        double Down(double keyHz) => Level(WholeSignal.Through([Tone(400, -50)], Rate, Step(Bell(400, 4, -40, 8, 0)) with { Key = [Tone(keyHz, -6)] })[0].AsSpan(48000, 48000).ToArray(), 400);

        Assert.InRange(Down(400), -82, -78);
        Assert.Equal(-50, Down(12000), 0.05);
    }

    [Fact]
    public void The_key_of_a_later_band_waits_for_the_bands_before()
    {
        // The first band never acts, so the second alone tells when it hears the key.
        double[] key = [.. Tone(400, 0).Select((x, n) => n < 24000 ? 0 : x)];
        var second = Bell(400, 1, -40, 20, 0);
        var alone = WholeSignal.Through([Tone(400, -20)], Rate, Step(second) with { Key = [key] })[0];

        var late = WholeSignal.Through([Tone(400, -20)], Rate, Step(Bell(5000, 1, 20, 2, 0), Bell(6000, 1, 20, 2, 0), second) with { Key = [key] })[0];

        Assert.All(alone.Take(90000).Zip(late), pair => Assert.Equal(pair.First, pair.Second, 1e-9));
    }

    [Fact]
    public void Each_band_tells_what_it_turned_down()
    {
        var processor = (DynamicEq)DynamicEq.Definition.Create(Step(Bell(180, 4, -40, 4, 0), Bell(3000, 1, -40, 4, 0)).Settings, new ProcessorContext(new AudioFormat(Rate, 1), Rate));

        Assert.Equal(["bell at 180 Hz", "bell at 3000 Hz"], processor.Reducers.Select(r => r.Name));
        Assert.Equal(processor.LatencyFrames, processor.Reducers[^1].LatencyFrames);
    }

    private static double Curve(double level, double threshold, double ratio, double knee)
    {
        var over = level - threshold;
        return (2 * over) < -knee ? level
            : 2 * Math.Abs(over) <= knee ? level + (((1 / ratio) - 1) * (over + (knee / 2)) * (over + (knee / 2)) / (2 * knee))
            : threshold + (over / ratio);
    }

    private static double Through(Item band, double freq, double level) => Level(WholeSignal.Through([Tone(freq, level)], Rate, Step(band))[0].AsSpan(48000, 48000).ToArray(), freq);

    private static Item Bell(double freq, double q, double threshold, double ratio, double knee)
    {
        var bell = DynamicEq.Bell;
        return bell.With((bell.Freq, freq), (bell.Q!, q), (bell.Threshold, threshold), (bell.Ratio, ratio), (bell.Knee, knee), (bell.Release, 400.0));
    }

    private static ProcessorStep Step(params Item[] bands) => DynamicEq.Definition.With(DynamicEq.Bands.To(bands));

    private static double[] Tone(double freq, double level) => [.. Enumerable.Range(0, 96000).Select(n => Math.Pow(10, level / 20) * Math.Sin(2 * Math.PI * freq * n / Rate))];

    private static double Level(double[] samples, double freq) => 20 * Math.Log10(2 * Spectrum.ResponseAt(samples, freq, Rate).Magnitude / samples.Length);
}
