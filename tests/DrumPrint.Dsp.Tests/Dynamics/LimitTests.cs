using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

public sealed class LimitTests
{
    // What the passes stay under the ceiling: documented with the processor.
    private const double MarginDb = 0.12;

    private const int Rise = 4800;
    private const int Fall = 9600;
    private const int Edge = 480;

    private static readonly (Parameter, object)[] Fastest = [(Limit.Ahead, 0.5), (Limit.Hold, 0.0), (Limit.Release, 1.0)];

    public static TheoryData<string> Hot => [.. HotSignals.All.Keys];

    [Theory]
    [MemberData(nameof(Hot))]
    public void Nothing_passes_the_ceiling_between_the_samples_either(string name)
    {
        foreach (var (rate, settings) in new[] { (44100, Of()), (48000, Of((Limit.Top, -3.0))), (96000, Of((Limit.Hold, 0.0), (Limit.Release, 20.0))), (192000, Of(Fastest)) })
        {
            var output = WholeSignal.Through([HotSignals.All[name]], rate, new ProcessorStep(Limit.Definition, settings))[0];

            Assert.InRange(TruePeakReaders.HighestDb(output), double.NegativeInfinity, settings[Limit.Top]);
        }
    }

    [Fact]
    public void Each_side_keeps_the_ceiling_whatever_the_link()
    {
        foreach (var link in new[] { 0.0, 35, 100 })
        {
            var output = WholeSignal.Through([Signals.Noise(3000, 31, 2), Signals.Hits(3000, 700, 200, seed: 32, level: 3)], 48000, Limit.Definition.With(Limit.Link.To(link)));

            Assert.All(output, side => Assert.InRange(TruePeakReaders.HighestDb(side), double.NegativeInfinity, -1));
        }
    }

    [Fact]
    public void What_stays_under_the_ceiling_passes_bit_for_bit()
    {
        var input = Signals.Hits(9000, 1500, 300, seed: 33, level: 0.2);

        var output = Steady.Through(Limit.Definition, Of(), [input, input]);

        Assert.All(output, side => Assert.Equal(input, side));
    }

    [Fact]
    public void A_wave_that_is_flat_but_for_rounding_is_read_as_it_stands()
    {
        // Once read as endless: the sine through three points that are all but one value.
        for (var level = 0.05; level < 2; level += 0.05)
        {
            var output = Steady.Through(Clip.Definition, Clip.Definition.With().Settings, [Steady.Level(24000, Spectrum.Decibels(level))])[0];

            Assert.Equal(Math.Min(level, Steady.Amplitude(-1.15)), output[20000], 1e-3);
        }
    }

    [Theory]
    [InlineData(40)]
    [InlineData(50)]
    [InlineData(1000)]
    public void A_steady_sine_three_decibels_over_is_turned_down_and_not_bent(double freqHz)
    {
        var input = Signals.Sine(96000, freqHz, Steady.Amplitude(2), 0.4);

        var output = Steady.Through(Limit.Definition, Of(), [input])[0].AsSpan(48000).ToArray();

        var harmonics = Enumerable.Range(2, 9).Sum(h => Math.Pow(Spectrum.AmplitudeAt(output, h * freqHz), 2));
        Assert.InRange(Math.Sqrt(harmonics) / Spectrum.AmplitudeAt(output, freqHz), 0, 1e-6);
        Assert.Equal(-1 - MarginDb, Spectrum.Decibels(Spectrum.AmplitudeAt(output, freqHz)), 0.005);
    }

    [Fact]
    public void Comes_down_within_the_look_ahead_holds_and_comes_back_by_its_time()
    {
        var input = Slow(5);
        var gain = Steady.GainDb(Limit.Definition, Of((Limit.Ahead, 4.0), (Limit.Hold, 20.0), (Limit.Release, 100.0)), input);

        var crossing = Array.FindIndex(input, x => x > Steady.Amplitude(-1 - MarginDb));
        Assert.InRange(crossing - Array.FindIndex(gain, g => g < -1e-6), 3 * 48, (4 * 48) + 12);
        Assert.All(gain[(Rise + Edge)..(Fall + (20 * 48))], g => Assert.Equal(-6 - MarginDb, g, 0.001));
        var back = Array.FindIndex(gain, Fall, g => g > (-6 - MarginDb) * Math.Exp(-1)) - Fall - (20 * 48);
        Assert.InRange(back, 4800, 4800 + (4 * 48) + 24);
    }

    [Fact]
    public void The_curve_tells_the_gain_in_time_with_the_sound()
    {
        var input = Slow(8);
        var settings = Of();
        var processor = Limit.Definition.Create(settings, new ProcessorContext(new AudioFormat(48000, 1), input.Length + 4000));
        var gain = Steady.GainDb(input, Steady.Through(processor, [input])[0]);
        var curve = ((IGainReducer)processor).GainCurve;

        for (var window = 0; window < input.Length / curve.WindowFrames; window++)
        {
            var lowest = gain.AsSpan(window * curve.WindowFrames, curve.WindowFrames).ToArray().Min();
            Assert.Equal(lowest, Spectrum.Decibels(curve.LowestGain[window]), 1e-5);
        }
    }

    // Standing at −20 dB, then at another level, then at −20 dB again; so slow that nothing of it lies high up.
    private static double[] Slow(double db) => [.. Enumerable.Range(0, 24000).Select(n =>
    {
        var part = Math.Clamp(Math.Min((n - Rise) / (double)Edge, (Fall + Edge - n) / (double)Edge), 0, 1);
        return 0.1 + ((Steady.Amplitude(db) - 0.1) * (1 - Math.Cos(Math.PI * part)) / 2);
    })];

    private static Settings Of(params (Parameter, object)[] values) => Settings.Of(Limit.Definition.Parameters, values);
}
