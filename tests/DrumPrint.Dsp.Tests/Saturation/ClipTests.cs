using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Dynamics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Saturation;

public sealed class ClipTests
{
    // The curve's own ceiling lies so far under the one asked for.
    private const double UnderDb = 0.15;

    public static TheoryData<string> Hot => [.. HotSignals.All.Keys];

    [Theory]
    [MemberData(nameof(Hot))]
    public void Nothing_passes_the_ceiling_on_or_between_the_samples(string name)
    {
        foreach (var (rate, soft, factor) in new[] { (44100, 0.0, 8.0), (48000, 40.0, 4.0), (96000, 100.0, 2.0) })
        {
            var step = Clip.Definition.With(Clip.Top.To(-2), Clip.Drive.To(6), Clip.Soft.To(soft), Clip.Factor.To(factor));

            var output = WholeSignal.Through([HotSignals.All[name]], rate, step)[0];

            Assert.InRange(TruePeakReaders.HighestDb(output), double.NegativeInfinity, -2);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(35)]
    [InlineData(100)]
    public void A_standing_level_meets_the_mixed_curve(double soft)
    {
        var ceiling = Steady.Amplitude(-1 - UnderDb);
        foreach (var level in new[] { -40.0, -12, -3, 0, 6 })
        {
            var output = Steady.Through(Clip.Definition, Of((Clip.Soft, soft), (Clip.Drive, 3.0)), [Steady.Level(48000, level)])[0];

            var x = Steady.Amplitude(level + 3) / ceiling;
            var expected = ceiling * (((1 - (soft / 100)) * Math.Min(1, x)) + (soft / 100 * x / Math.Sqrt(1 + (x * x))));
            Assert.Equal(expected, output[40000], 1e-4);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(100)]
    public void Folded_products_of_5_khz_at_3_percent_third_harmonic_stay_below_the_bar_at_8_times(double soft)
    {
        const int Settle = 48000;
        double[] Through(double drive) => Steady.Through(Clip.Definition, Of((Clip.Soft, soft), (Clip.Drive, drive)), [Signals.Sine(Settle + 7200, 5000, 0.5)])[0];
        double Third(ReadOnlySpan<double> y) => Spectrum.AmplitudeAt(y, 15000) / Spectrum.AmplitudeAt(y, 5000);

        // The drive at which the third harmonic is 3 per cent.
        var (low, high) = (-12.0, 20.0);
        for (var i = 0; i < 16; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = Third(Through(middle).AsSpan(Settle, 4800)) < 0.03 ? (middle, high) : (low, middle);
        }

        var window = Through(high).AsSpan(Settle, 4800);
        var worst = 0.0;
        for (var freq = 1000; freq < 24000; freq += 1000)
        {
            worst = freq % 5000 == 0 ? worst : Math.Max(worst, Spectrum.AmplitudeAt(window, freq));
        }

        Assert.InRange(Spectrum.Decibels(worst / Spectrum.AmplitudeAt(window, 5000)), double.NegativeInfinity, SaturationTolerance.FoldedDb);
    }

    [Fact]
    public void Hard_and_not_reached_it_only_sets_the_level()
    {
        var input = Signals.Sine(9600, 997, 0.3);

        var output = Steady.Through(Clip.Definition, Of((Clip.Drive, 3.0)), [input])[0];

        for (var n = 1000; n < 8000; n++)
        {
            Assert.Equal(input[n] * Steady.Amplitude(3), output[n], 1e-5);
        }
    }

    private static Settings Of(params (Parameter, object)[] values) => Settings.Of(Clip.Definition.Parameters, values);
}
