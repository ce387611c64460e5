using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Tests.Support;
using DrumPrint.Dsp.WordLength;
using FsCheck.Xunit;
using MathNet.Numerics.IntegralTransforms;
using MathNet.Numerics.Statistics;

namespace DrumPrint.Dsp.Tests.WordLength;

/// <summary>Error power of q²/12 undithered and q²/4 with triangular dither: the textbook results (the references give
/// them second-hand, with the levels below computed from them).</summary>
public sealed class QuantizerTests
{
    private const int Frames = 400_000;

    private static readonly double[] LastingDither = [-1, 0, -1, 0, 0, 0, 0, 1, 0, 0, 0, -1, 0, 0, 0, -1, 0, 0, 0, 0, 0, 0, 0, -1];

    [Theory]
    [InlineData(16)]
    [InlineData(24)]
    public void Undithered_error_has_the_power_of_a_twelfth_of_a_step_squared(int bits)
    {
        var error = Error(Signals.Noise(Frames, 7, 0.5), bits, Dither.None);

        AssertDecibels(10 * Math.Log10(1.0 / 12), 10 * Math.Log10(Power(error)));
    }

    [Theory]
    [InlineData(16)]
    [InlineData(24)]
    public void Dithered_error_has_the_power_of_a_quarter_of_a_step_squared(int bits)
    {
        var error = Error(Signals.Noise(Frames, 7, 0.5), bits, Dither.Tpdf);

        AssertDecibels(10 * Math.Log10(0.25), 10 * Math.Log10(Power(error)));
    }

    [Theory]
    [InlineData(16, Dither.None, -98.091)]
    [InlineData(16, Dither.Tpdf, -93.319)]
    [InlineData(20, Dither.Tpdf, -117.402)]
    [InlineData(24, Dither.None, -146.255)]
    [InlineData(24, Dither.Tpdf, -141.484)]
    public void The_noise_lies_where_theory_puts_it_below_a_full_scale_sine(int bits, Dither dither, double levelDb)
    {
        var sine = Signals.Sine(Frames, 997, 0.9);

        var error = Error(sine, bits, dither);

        AssertDecibels(levelDb, 10 * Math.Log10(Power(error) * Math.Pow(4, 1 - bits) / 0.5));
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.1)]
    [InlineData(0.25)]
    [InlineData(0.5)]
    [InlineData(0.75)]
    [InlineData(0.9)]
    [InlineData(-0.3)]
    public void Dithered_error_has_no_mean_and_the_same_variance_wherever_a_level_lies_between_steps(double steps)
    {
        var level = (1000 + steps) * Math.Pow(2, -15);

        var error = Error([.. Enumerable.Repeat(level, Frames)], 16, Dither.Tpdf);

        Assert.InRange(error.Mean(), -WordLengthTolerance.MeanSteps, WordLengthTolerance.MeanSteps);
        Assert.InRange(error.PopulationVariance(), 0.25 - WordLengthTolerance.VarianceSteps, 0.25 + WordLengthTolerance.VarianceSteps);
    }

    [Fact]
    public void Dithered_error_has_nothing_of_the_signal_and_undithered_error_has()
    {
        var quiet = Signals.Sine(Frames, 997, 0.4 * Math.Pow(2, -15));

        var dithered = Error(quiet, 16, Dither.Tpdf);
        var undithered = Error(quiet, 16, Dither.None);

        Assert.InRange(Correlation.Pearson(quiet, dithered), -WordLengthTolerance.Correlation, WordLengthTolerance.Correlation);
        Assert.InRange(Correlation.Pearson(quiet, undithered), -1.0001, -0.99); // the signal is gone: the error is all of it
    }

    [Fact]
    public void Dithered_noise_does_not_breathe_with_the_signal()
    {
        var swelling = Signals.Sine(Frames, 997).Select((x, n) => x * Math.Pow(2, -15) * 3 * n / Frames).ToArray();

        var error = Error(swelling, 16, Dither.Tpdf);

        foreach (var part in error.Chunk(Frames / 8))
        {
            AssertDecibels(10 * Math.Log10(0.25), 10 * Math.Log10(Power(part)));
        }
    }

    [Fact]
    public void Dither_turns_the_harmonics_of_a_quiet_sine_into_noise()
    {
        const int length = 65536;
        const int line = 1365;
        var quiet = Signals.Sine(length, (double)line * Run.SampleRate / length, 0.7 * Math.Pow(2, -15));

        var dithered = Decibels(Error(quiet, 16, Dither.Tpdf));
        var undithered = Decibels(Error(quiet, 16, Dither.None));

        foreach (var harmonic in new[] { 3, 5, 7, 9, 11 }.Select(k => k * line))
        {
            Assert.InRange(dithered[harmonic], -200, 10 * Math.Log10(0.25) + WordLengthTolerance.LineOverFloorDb);
        }

        Assert.True(undithered[3 * line] > 10 * Math.Log10(0.25) + WordLengthTolerance.LineOverFloorDb + 20);
    }

    [Fact]
    public void Dithered_error_is_white()
    {
        const int length = 65536;
        var error = Error(Signals.Noise(length, 3, 0.5), 16, Dither.Tpdf);

        var powers = Decibels(error)[..(length / 2)].Select(d => Math.Pow(10, d / 10)).ToArray();

        foreach (var band in powers.Chunk(powers.Length / 8))
        {
            Assert.InRange(10 * Math.Log10(band.Mean() / 0.25), -WordLengthTolerance.BandDb, WordLengthTolerance.BandDb);
        }
    }

    [Fact]
    public void Channels_have_dither_of_their_own()
    {
        var left = Signals.Sine(Frames, 997, 0.5);
        var both = new[] { (double[])left.Clone(), (double[])left.Clone() };

        new Quantizer(16, Dither.Tpdf, CounterNoise.FromName("Kick"), 2).Process(new AudioBlock(both, 0, Frames));

        var errors = both.Select(c => c.Zip(left, (y, x) => y - x).ToArray()).ToArray();
        Assert.InRange(Correlation.Pearson(errors[0], errors[1]), -WordLengthTolerance.Correlation, WordLengthTolerance.Correlation);
    }

    [Fact]
    public void The_same_name_gives_the_same_samples_and_another_name_others()
    {
        var signal = Signals.Sine(2000, 997, 0.5);

        var first = Quantized(signal, 16, Dither.Tpdf, "01_Kick_SlowFerry_v1");
        var again = Quantized(signal, 16, Dither.Tpdf, "01_Kick_SlowFerry_v1");
        var other = Quantized(signal, 16, Dither.Tpdf, "02_Snare_SlowFerry_v1");

        Assert.Equal(first, again);
        Assert.True(first.Zip(other).Count(p => p.First != p.Second) > 500);
    }

    [Fact]
    public void The_name_and_the_place_alone_make_the_dither()
    {
        const int channels = 3;
        var noise = CounterNoise.FromName("01_Kick_SlowFerry_v1");
        var silence = Enumerable.Range(0, channels).Select(_ => new double[200]).ToArray();

        new Quantizer(16, Dither.Tpdf, noise, channels).Process(new AudioBlock(silence, 0, 200));

        for (var n = 0; n < 200; n++)
        {
            for (var c = 0; c < channels; c++)
            {
                var bits = noise.Bits((n * channels) + c);
                var dither = ((double)(bits >> 32) - (bits & 0xFFFF_FFFF)) / 4_294_967_296;
                Assert.Equal(Math.Round(dither), silence[c][n] * 32768);
            }
        }
    }

    [Fact]
    public void The_dither_of_a_name_is_the_same_for_ever()
    {
        var quantized = Quantized(new double[24], 16, Dither.Tpdf, "01_Kick_SlowFerry_v1");

        // A change here would make it impossible to make older prints again.
        Assert.Equal(LastingDither, quantized.Select(x => x * 32768));
    }

    [Property(MaxTest = 50)]
    public void Where_blocks_are_cut_changes_no_bit(byte[] cuts, bool isDithered)
    {
        var dither = isDithered ? Dither.Tpdf : Dither.None;
        var whole = new[] { Signals.Noise(600, 1, 1.2), Signals.Noise(600, 2, 1.2) };
        var parts = whole.Select(c => (double[])c.Clone()).ToArray();
        var quantizer = new Quantizer(16, dither, CounterNoise.FromName("x"), 2);

        new Quantizer(16, dither, CounterNoise.FromName("x"), 2).Process(new AudioBlock(whole, 0, 600));
        var at = 0;
        foreach (var cut in cuts.Append(byte.MaxValue).Append(byte.MaxValue).Append(byte.MaxValue))
        {
            var frames = Math.Min(cut, 600 - at);
            quantizer.Process(new AudioBlock(parts, at, frames));
            at += frames;
        }

        Assert.Equal(whole, parts);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(16)]
    [InlineData(24)]
    [InlineData(32)]
    public void Everything_lands_on_a_step_within_full_scale(int bits)
    {
        var fullScale = Math.Pow(2, bits - 1);
        foreach (var dither in Enum.GetValues<Dither>())
        {
            var quantized = Quantized([.. Signals.Noise(1000, 1, 1.5), 1e300, -1e300, 1, -1, 0], bits, dither);

            Assert.All(quantized, x => Assert.Equal(Math.Truncate(x * fullScale), x * fullScale));
            Assert.Equal(-1, quantized.Min());
            Assert.Equal(1 - (1 / fullScale), quantized.Max());
        }
    }

    [Fact]
    public void Undithered_samples_round_to_the_nearest_step_and_halves_to_the_even_one()
    {
        double[] steps = [0.5, 1.5, 2.5, -0.5, -1.5, -2.5, 0.49, 0.51, -0.49, -0.51, 3, -3, 32767.4, 32767.5, 40000, -32768.5, -40000];

        for (var from = 0; from < steps.Length; from++)
        {
            var quantized = Quantized([.. steps[from..].Select(s => s / 32768)], 16, Dither.None);

            Assert.Equal(new double[] { 0, 2, 2, 0, -2, -2, 0, 1, 0, -1, 3, -3, 32767, 32767, 32767, -32768, -32768 }[from..], quantized.Select(x => x * 32768));
        }
    }

    [Fact]
    public void Undithered_samples_already_on_a_step_stay_as_they_are()
    {
        var once = Quantized(Signals.Noise(1000), 24, Dither.None);

        Assert.Equal(once, Quantized(once, 24, Dither.None));
    }

    [Fact]
    public void Nothing_is_allocated_while_processing()
    {
        var signal = new[] { Signals.Noise(1000) };
        var quantizer = new Quantizer(16, Dither.Tpdf, CounterNoise.FromName("x"), 1);

        Assert.Equal(0, Allocations.Of(() => quantizer.Process(new AudioBlock(signal, 0, 1000))));
    }

    [Fact]
    public void Impossible_words_and_channels_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new Quantizer(1, Dither.None, default, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Quantizer(33, Dither.None, default, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Quantizer(16, Dither.None, default, 0));
        Assert.Throws<ArgumentException>(() => new Quantizer(16, Dither.None, default, 2).Process(new AudioBlock([new double[4]], 0, 4)));
    }

    private static double[] Quantized(double[] signal, int bits, Dither dither, string name = "01_Kick")
    {
        var block = new[] { (double[])signal.Clone() };
        new Quantizer(bits, dither, CounterNoise.FromName(name), 1).Process(new AudioBlock(block, 0, signal.Length));
        return block[0];
    }

    /// <summary>Error in steps.</summary>
    private static double[] Error(double[] signal, int bits, Dither dither)
    {
        var fullScale = Math.Pow(2, bits - 1);
        var error = Quantized(signal, bits, dither);
        for (var n = 0; n < error.Length; n++)
        {
            error[n] = (error[n] - signal[n]) * fullScale;
        }

        return error;
    }

    private static double Power(ReadOnlySpan<double> signal)
    {
        var sum = 0.0;
        foreach (var x in signal)
        {
            sum += x * x;
        }

        return sum / signal.Length;
    }

    /// <summary>Power of each line, such that white noise of power p has lines of p on average.</summary>
    private static double[] Decibels(double[] signal)
    {
        var spectrum = signal.Select(x => new System.Numerics.Complex(x, 0)).ToArray();
        Fourier.Forward(spectrum, FourierOptions.AsymmetricScaling);
        return [.. spectrum.Select(x => 10 * Math.Log10((x.Magnitude * x.Magnitude / signal.Length) + 1e-30))];
    }

    private static void AssertDecibels(double expected, double actual) =>
        Assert.InRange(actual, expected - WordLengthTolerance.PowerDb, expected + WordLengthTolerance.PowerDb);
}
