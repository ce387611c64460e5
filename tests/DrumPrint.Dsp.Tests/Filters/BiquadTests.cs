using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Filters;

public sealed class BiquadTests
{
    [Fact]
    public void Printed_coefficients_go_in_and_come_out_again()
    {
        var section = BiquadCoefficients.FromDirect(1.5, -0.25, 0.125, -1.75, 0.875);

        Assert.Equal((1.5, -0.25, 0.125, -1.75, 0.875), (section.B0, section.B1, section.B2, section.A1, section.A2));
    }

    [Fact]
    public void It_computes_its_difference_equation()
    {
        var section = BiquadCoefficients.FromDirect(0.5, -0.25, 0.125, -1.5, 0.75);
        var x = Signals.Noise(500);
        var expected = new double[x.Length];
        for (var n = 0; n < x.Length; n++)
        {
            double At(double[] signal, int i) => i < 0 ? 0 : signal[i];
            expected[n] = (0.5 * x[n]) - (0.25 * At(x, n - 1)) + (0.125 * At(x, n - 2)) + (1.5 * At(expected, n - 1)) - (0.75 * At(expected, n - 2));
        }

        var filter = new Biquad(section);
        var actual = x.Select(v => filter.Next(v)).ToArray();

        for (var n = 0; n < x.Length; n++)
        {
            Assert.Equal(expected[n], actual[n], Tolerance.Rounding);
        }
    }

    // The worst place for an ordinary direct form: poles within a thousandth of z = 1.
    [Theory]
    [InlineData(192000, 20, 8)]
    [InlineData(384000, 20, 8)]
    [InlineData(48000, 20, 8)]
    public void Filters_at_20_Hz_add_no_noise_above_minus_248_dB(int rate, double freq, int order)
    {
        var input = Signals.Sine(rate / 2, 55, 0.5, sampleRate: rate).Zip(Signals.Noise(rate / 2, level: 0.5), (a, b) => a + b).ToArray();
        foreach (var sections in new[]
        {
            BiquadDesign.HighPass(freq, order, rate),
            BiquadDesign.LowPass(freq, order, rate),
            BiquadDesign.Bell(freq, 12, 8, rate),
            BiquadDesign.LowShelf(freq, -12, 0.7071, rate),
        })
        {
            var filter = new FilterCascade(sections);
            var output = (double[])input.Clone();
            filter.Process(output);

            var worst = ExactFilter.LargestError(sections, input, output);

            Assert.InRange(Spectrum.Decibels(worst), double.NegativeInfinity, FilterTolerance.NoiseDb);
        }
    }
}
