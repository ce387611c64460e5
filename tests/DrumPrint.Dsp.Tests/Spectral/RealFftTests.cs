using DrumPrint.Dsp.Spectral;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Spectral;

public sealed class RealFftTests
{
    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(6)]
    [InlineData(10)]
    [InlineData(16)]
    [InlineData(96)]
    [InlineData(128)]
    [InlineData(320)]
    [InlineData(384)]
    [InlineData(512)]
    public void Transform_equals_its_definition_worked_out_to_32_digits(int length)
    {
        var signal = Signals.Noise(length, 1);

        var (re, im) = Forward(new RealFft(length), signal);

        var (wantRe, wantIm) = ExactDft.Of(signal, new double[length]);
        Assert.InRange(Error(re, wantRe[..re.Length], im, wantIm[..im.Length]), 0, SpectralTolerance.Transform);
    }

    [Theory]
    [InlineData(4096)]
    [InlineData(65536)]
    public void Long_transform_equals_that_of_NWaves(int length)
    {
        var signal = Signals.Noise(length, 2);
        var (wantRe, wantIm) = (new double[length], new double[length]);
        new NWaves.Transforms.RealFft64(length).Direct(signal, wantRe, wantIm);

        var (re, im) = Forward(new RealFft(length), signal);

        // NWaves multiplies its roots up step by step; that sets this tolerance.
        Assert.InRange(Error(re, wantRe[..re.Length], im, wantIm[..im.Length]), 0, 1e-12);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(6)]
    [InlineData(10)]
    [InlineData(40)]
    [InlineData(4096)]
    [InlineData(3 * 4096)]
    [InlineData(5 * 16384)]
    [InlineData(131072)]
    public void Inverse_undoes_forward(int length)
    {
        var signal = Signals.Noise(length, 3);
        var fft = new RealFft(length);
        var (re, im) = Forward(fft, signal);
        var back = new double[length];

        fft.Inverse(re, im, back);

        Assert.InRange(Error(back, signal, [], []), 0, SpectralTolerance.Transform);
    }

    [Theory]
    [InlineData(128)]
    [InlineData(384)]
    [InlineData(16384)]
    public void Every_lane_width_gives_the_same_bits(int length)
    {
        var signal = Signals.Noise(length, 4);
        var reference = new RealFft(length, 1);
        var (wantRe, wantIm) = Forward(reference, signal);
        var wantBack = Inverse(reference, wantRe, wantIm);

        foreach (var lanes in new[] { 2, 4, 8 })
        {
            var fft = new RealFft(length, lanes);
            var (re, im) = Forward(fft, signal);

            Assert.Equal(wantRe, re);
            Assert.Equal(wantIm, im);
            Assert.Equal(wantBack, Inverse(fft, re, im));
        }
    }

    [Fact]
    public void Transforms_allocate_nothing()
    {
        var fft = new RealFft(4096);
        var signal = Signals.Noise(4096, 5);
        var (re, im) = Forward(fft, signal);

        Assert.Equal(0, Allocations.Of(() =>
        {
            fft.Inverse(re, im, signal);
            fft.Forward(signal, re, im);
        }));
    }

    [Theory]
    [InlineData(7)]
    [InlineData(14)]
    public void Length_that_cannot_be_built_is_refused(int length) => Assert.Throws<ArgumentException>(() => new RealFft(length));

    private static (double[] Re, double[] Im) Forward(RealFft fft, double[] signal)
    {
        var (re, im) = (new double[fft.Bins], new double[fft.Bins]);
        fft.Forward(signal, re, im);
        return (re, im);
    }

    private static double[] Inverse(RealFft fft, double[] re, double[] im)
    {
        var signal = new double[fft.Length];
        fft.Inverse(re, im, signal);
        return signal;
    }

    private static double Error(double[] got, double[] want, double[] gotToo, double[] wantToo)
    {
        var error = got.Zip(want, (a, b) => (a - b) * (a - b)).Sum() + gotToo.Zip(wantToo, (a, b) => (a - b) * (a - b)).Sum();
        return Math.Sqrt(error / (want.Sum(x => x * x) + wantToo.Sum(x => x * x)));
    }
}
