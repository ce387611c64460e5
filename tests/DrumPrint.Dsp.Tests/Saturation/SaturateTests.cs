using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;
using Xunit.Abstractions;

namespace DrumPrint.Dsp.Tests.Saturation;

public sealed class SaturateTests(ITestOutputHelper output)
{
    private const int Settle = 480;
    private const int Window = 4800;

    private static readonly string[] Words = ["soft", "cubic", "hard"];

    public static TheoryData<string> Shapes => new(Words);

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.9)]
    [InlineData(1.4)]
    public void The_cubic_curve_makes_the_harmonics_of_its_formula(double level)
    {
        var harmonics = Harmonics(Sine(1000, level), 1000, Of((Saturate.Shape, "cubic")));

        // (a sin)³ = a³(3 sin − sin 3)/4.
        Assert.Equal(level - (level * level * level / 9), harmonics[0], SaturationTolerance.Chord);
        Assert.Equal(level * level * level / 27, harmonics[2], SaturationTolerance.Chord);
        Assert.All(harmonics.Skip(3), h => Assert.InRange(h, 0, SaturationTolerance.Chord));
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Harmonics_are_odd_without_bias_and_even_ones_come_with_it(string shape)
    {
        var straight = Harmonics(Sine(1000, 1.3), 1000, Of((Saturate.Shape, shape)));
        var biased = Harmonics(Sine(1000, 1.3), 1000, Of((Saturate.Shape, shape), (Saturate.Bias, 30.0)));

        Assert.All(new[] { 1, 3, 5 }, n => Assert.InRange(Spectrum.Decibels(straight[n] / straight[0]), double.NegativeInfinity, -140));
        Assert.InRange(Spectrum.Decibels(biased[1] / biased[0]), -40, 0);
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Third_harmonic_of_small_signals_rises_two_decibels_for_each(string shape)
    {
        if (shape == "hard")
        {
            Assert.All(Harmonics(Sine(1000, 0.99), 1000, Of((Saturate.Shape, shape))).Skip(1), h => Assert.InRange(h, 0, 1e-7));
            return;
        }

        var low = Harmonics(Sine(1000, 0.05), 1000, Of((Saturate.Shape, shape)));
        var high = Harmonics(Sine(1000, 0.1), 1000, Of((Saturate.Shape, shape)));

        Assert.Equal(Spectrum.Decibels(4), Spectrum.Decibels(high[2] / high[0] / (low[2] / low[0])), 0.15);
    }

    [Theory]
    [InlineData("soft", 0)]
    [InlineData("soft", 60)]
    [InlineData("cubic", -100)]
    [InlineData("hard", 40)]
    public void Small_signals_leave_as_they_came_raised_by_the_drive(string shape, double bias)
    {
        var settings = Of((Saturate.Shape, shape), (Saturate.Bias, bias), (Saturate.Drive, 12.0));
        foreach (var freq in new[] { 40.0, 1000, 20000 })
        {
            var tone = Harmonics(Sine(freq, 1e-5, 24000 + Window), freq, settings, 24000, 1)[0];

            Assert.InRange(Spectrum.Decibels(tone / 1e-5), 12 - 0.02, 12.01);
        }
    }

    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(8)]
    [InlineData(16)]
    public void Half_a_mix_of_an_unbent_signal_is_the_signal(int factor)
    {
        var input = Sine(7000, 0.5);
        var settings = Of((Saturate.Shape, "hard"), (Saturate.Mix, 50.0), (Saturate.Factor, (double)factor));
        var latency = Saturate.Definition.Create(settings, new ProcessorContext(new AudioFormat(Run.SampleRate, 1), 0)).LatencyFrames;

        var mixed = Run.Through(Saturate.Definition, settings, [input])[0];

        var worst = Enumerable.Range(1000, 3000).Max(n => Math.Abs(mixed[n + latency] - input[n]));
        Assert.InRange(Spectrum.Decibels(worst), double.NegativeInfinity, SaturationTolerance.BlendDb);
    }

    [Fact]
    public void Folded_products_of_5_khz_at_3_percent_third_harmonic_stay_below_the_bar_at_8_times()
    {
        foreach (var shape in Words)
        {
            var drive = DriveFor3Percent(shape);
            foreach (var (factor, rate) in new[] { (2, 48000), (4, 48000), (8, 44100), (8, 48000), (16, 48000) })
            {
                var signal = Through(Signals.Sine(Settle + (rate / 10), 5000, 1, sampleRate: rate), Of((Saturate.Shape, shape), (Saturate.Drive, drive), (Saturate.Factor, (double)factor)), rate);
                var folded = Folded(signal.AsSpan(Settle, rate / 10), 5000, rate);

                output.WriteLine($"{shape,-5} at {drive:0.00} dB, {factor,2}x {rate} Hz: worst folded product {folded:0.0} dBc");
                if (factor == 8)
                {
                    Assert.InRange(folded, double.NegativeInfinity, SaturationTolerance.FoldedDb);
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void A_full_scale_sine_driven_far_folds_little_at_any_frequency(string shape)
    {
        foreach (var rate in new[] { 44100, 48000 })
        {
            foreach (var (drive, freq) in from d in new[] { 24.0, 36 } from k in Enumerable.Range(10, 11) select (d, (k * 1000.0) - 100))
            {
                var folded = Folded(Through(Signals.Sine(Settle + (rate / 100), freq, 1, sampleRate: rate), Of((Saturate.Shape, shape), (Saturate.Drive, drive)), rate).AsSpan(Settle, rate / 100), freq, rate);

                output.WriteLine($"{shape,-5} at {drive} dB, {rate} Hz, {freq} Hz: {folded:0.0} dBc");
                Assert.InRange(folded, double.NegativeInfinity, drive > 24 || freq > 19000 ? SaturationTolerance.FarDrivenFoldedDb : SaturationTolerance.DrivenFoldedDb);
            }
        }
    }

    // What is left below half the rate of a wave cut hard overshoots (a square one by 18 %: Wilbraham, 1848; noise by more).
    [Fact]
    public void Peaks_may_pass_full_scale_as_the_description_says()
    {
        var signal = Through(Signals.Hits(48000, 12000, 2000, level: 1), Of((Saturate.Shape, "hard"), (Saturate.Drive, 24.0)));

        output.WriteLine($"{Spectrum.Decibels(signal.Max(Math.Abs)):0.00} dBFS");
        Assert.InRange(signal.Max(Math.Abs), 1.01, 2.5);
        Assert.Contains("may still pass full scale", Saturate.Definition.Summary, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void A_biased_curve_leaves_no_steady_level(string shape)
    {
        var signal = Through(Sine(100, 1, 6 * 48000), Of((Saturate.Shape, shape), (Saturate.Bias, 80.0), (Saturate.Drive, 12.0)));

        Assert.InRange(Math.Abs(signal.AsSpan(5 * 48000, 48000).ToArray().Average()), 0, 1e-6);
    }

    [Fact]
    public void Silence_stays_silence_at_any_bias()
    {
        foreach (var shape in Words)
        {
            foreach (var bias in new[] { -100.0, -33, 0, 71, 100 })
            {
                Assert.All(Through(Signals.Silence(2000), Of((Saturate.Shape, shape), (Saturate.Bias, bias))), x => Assert.Equal(0, x));
            }
        }
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void The_greatest_drive_stays_finite_and_near_full_scale(string shape)
    {
        var signal = Through(Signals.Noise(9600, level: 8), Of((Saturate.Shape, shape), (Saturate.Drive, 48.0)));

        // Band-limiting a clipped wave overshoots.
        Assert.All(signal, x => Assert.InRange(x, -2.5, 2.5));
    }

    private static Settings Of(params (Parameter, object)[] values) => Settings.Of(Saturate.Definition.Parameters, values);

    private static double[] Sine(double freq, double level, int frames = 4800 + 4800) => Signals.Sine(frames, freq, level);

    private static double[] Through(double[] input, Settings settings, int rate = Run.SampleRate) =>
        Run.Through(Saturate.Definition, settings, [input], sampleRate: rate)[0];

    private static double[] Harmonics(double[] input, double freq, Settings settings, int settle = 4800, int count = 7)
    {
        var signal = Through(input, settings).AsSpan(settle, Window).ToArray();
        return Enumerable.Range(1, count).Select(n => Spectrum.AmplitudeAt(signal, n * freq)).ToArray();
    }

    private static double DriveFor3Percent(string shape)
    {
        var (low, high) = (-20.0, 20.0);
        for (var i = 0; i < 12; i++)
        {
            var drive = (low + high) / 2;
            var window = Through(Signals.Sine(2 * Settle, 5000), Of((Saturate.Shape, shape), (Saturate.Drive, drive))).AsSpan(Settle);
            (low, high) = Spectrum.AmplitudeAt(window, 15000) / Spectrum.AmplitudeAt(window, 5000) < 0.03 ? (drive, high) : (low, drive);
        }

        return high;
    }

    /// <summary>Largest component that is no harmonic, in dB of the first.</summary>
    private static double Folded(ReadOnlySpan<double> window, double freq, int rate)
    {
        var worst = 0.0;
        var step = Gcd((int)freq, rate);
        for (var f = step; f < rate / 2; f += step)
        {
            if (f % (int)freq != 0)
            {
                worst = Math.Max(worst, Spectrum.AmplitudeAt(window, f, rate));
            }
        }

        return Spectrum.Decibels(worst / Spectrum.AmplitudeAt(window, freq, rate));
    }

    private static int Gcd(int a, int b) => b == 0 ? a : Gcd(b, a % b);
}
