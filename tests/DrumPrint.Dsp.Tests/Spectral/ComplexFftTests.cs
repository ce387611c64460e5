using System.Numerics;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;
using DrumPrint.Dsp.Tests.Support;
using MathNet.Numerics.IntegralTransforms;

namespace DrumPrint.Dsp.Tests.Spectral;

public sealed class ComplexFftTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(8)]
    [InlineData(12)]
    [InlineData(40)]
    [InlineData(64)]
    [InlineData(96)]
    [InlineData(128)]
    [InlineData(192)]
    [InlineData(256)]
    [InlineData(320)]
    [InlineData(512)]
    public void Transform_equals_its_definition_worked_out_to_32_digits(int length)
    {
        var (re, im) = (Signals.Noise(length, 1), Signals.Noise(length, 2));

        var (gotRe, gotIm) = Forward(new ComplexFft(length), re, im);

        var (wantRe, wantIm) = ExactDft.Of(re, im);
        Assert.InRange(Error(gotRe, gotIm, wantRe, wantIm), 0, SpectralTolerance.Transform);
    }

    [Theory]
    [InlineData(4096)]
    [InlineData(65536)]
    public void Long_transform_equals_that_of_MathNet(int length)
    {
        var (re, im) = (Signals.Noise(length, 3), Signals.Noise(length, 4));
        var reference = re.Zip(im, (r, i) => new Complex(r, i)).ToArray();
        Fourier.Forward(reference, FourierOptions.NoScaling);

        var (gotRe, gotIm) = Forward(new ComplexFft(length), re, im);

        Assert.InRange(Error(gotRe, gotIm, [.. reference.Select(c => c.Real)], [.. reference.Select(c => c.Imaginary)]), 0, SpectralTolerance.Transform);
    }

    [Theory]
    [InlineData(1280)]
    [InlineData(1536)]
    [InlineData(3 * 4096)]
    [InlineData(5 * 4096)]
    public void Bins_of_a_long_transform_equal_their_definition(int length)
    {
        var (re, im) = (Signals.Noise(length, 3), Signals.Noise(length, 4));
        int[] bins = [0, 1, 77, length / 3, length / 2, length - 1];

        var (gotRe, gotIm) = Forward(new ComplexFft(length), re, im);

        var want = bins.Select(k => ExactDft.Bin(re, im, k)).ToArray();
        Assert.InRange(
            Error([.. bins.Select(k => gotRe[k])], [.. bins.Select(k => gotIm[k])], [.. want.Select(w => w.Re)], [.. want.Select(w => w.Im)]),
            0,
            SpectralTolerance.Transform);
    }

    [Theory]
    [InlineData(48)]
    [InlineData(8192)]
    [InlineData(5 * 8192)]
    [InlineData(131072)]
    public void Inverse_undoes_forward(int length)
    {
        var (re, im) = (Signals.Noise(length, 5), Signals.Noise(length, 6));
        var fft = new ComplexFft(length);
        var (spectrumRe, spectrumIm) = Forward(fft, re, im);
        var (gotRe, gotIm) = (new double[length], new double[length]);

        fft.InverseUnscaled(spectrumRe, spectrumIm, gotRe, gotIm);

        Assert.InRange(Error([.. gotRe.Select(x => x / length)], [.. gotIm.Select(x => x / length)], re, im), 0, SpectralTolerance.Transform);
    }

    [Theory]
    [InlineData(64)]
    [InlineData(320)]
    [InlineData(1536)]
    [InlineData(8192)]
    public void Every_lane_width_gives_the_same_bits(int length)
    {
        var (re, im) = (Signals.Noise(length, 7), Signals.Noise(length, 8));
        var (wantRe, wantIm) = Forward(new ComplexFft(length, 1), re, im);

        foreach (var lanes in new[] { 2, 4, 8 })
        {
            var (gotRe, gotIm) = Forward(new ComplexFft(length, lanes), re, im);

            Assert.Equal(wantRe, gotRe);
            Assert.Equal(wantIm, gotIm);
        }
    }

    [Fact]
    public void Length_with_another_factor_is_refused() => Assert.Throws<ArgumentException>(() => new ComplexFft(7 * 64));

    [Fact]
    public void Roots_of_unity_are_the_nearest_doubles_or_their_neighbours()
    {
        const int Length = 15 * 1024;
        for (var k = 0; k < Length; k++)
        {
            var (cos, sin) = RootOfUnity.At(k, Length);
            var (wantCos, wantSin) = ExactDft.RootOf(k, Length);

            Assert.InRange(Math.Abs(cos - wantCos), 0, Math.BitIncrement(Math.Abs(wantCos)) - Math.Abs(wantCos));
            Assert.InRange(Math.Abs(sin - wantSin), 0, Math.BitIncrement(Math.Abs(wantSin)) - Math.Abs(wantSin));
        }
    }

    private static (double[] Re, double[] Im) Forward(ComplexFft fft, double[] re, double[] im)
    {
        var (outRe, outIm) = (new double[re.Length], new double[re.Length]);
        fft.Forward(re, im, outRe, outIm);
        return (outRe, outIm);
    }

    private static double Error(double[] gotRe, double[] gotIm, double[] wantRe, double[] wantIm)
    {
        var error = gotRe.Zip(wantRe, (a, b) => (a - b) * (a - b)).Sum() + gotIm.Zip(wantIm, (a, b) => (a - b) * (a - b)).Sum();
        return Math.Sqrt(error / (wantRe.Sum(x => x * x) + wantIm.Sum(x => x * x)));
    }
}
