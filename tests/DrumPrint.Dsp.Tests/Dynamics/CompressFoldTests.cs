using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>The gain folds nothing down, reads the wave between the samples, and comes early where it is asked to.</summary>
public sealed class CompressFoldTests
{
    // What a plain compressor at eight times the rate does, and 3 dB; nobody hears what lies 100 dB down.
    private const double OverPlainDb = 3;
    private const double OverPlainLoopDb = 6;
    private const double UnheardDb = -100;

    public static TheoryData<double, double, double, int> Sweep()
    {
        var cases = new TheoryData<double, double, double, int>();
        foreach (var (freqHz, attack, release) in new (double, double, double)[] { (5000, 0, 5), (18000, 0.05, 20), (15000, 1, 70), (12000, 0, 70), (4000, 10, 5), (9000, 0, 20), (20000, 0.05, 5), (1000, 1, 5) })
        {
            cases.Add(freqHz, attack, release, 48000);
        }

        cases.Add(11000, 0, 20, 44100);
        cases.Add(19000, 0.05, 5, 96000);
        cases.Add(16000, 1, 20, 192000);
        return cases;
    }

    [Theory]
    [MemberData(nameof(Sweep))]
    public void Nothing_folds_that_a_plain_compressor_at_eight_times_the_rate_would_not_fold(double freqHz, double attack, double release, int sampleRate)
    {
        var plain = FoldedProducts.OfPlain(freqHz, 1, sampleRate, -20, 10, 6, attack, release);

        var folded = FoldedProducts.OfCompress(freqHz, 1, sampleRate, (Compress.Ratio, 10.0), (Compress.Attack, attack), (Compress.Release, release));

        Assert.InRange(folded, double.NegativeInfinity, Math.Max(plain + OverPlainDb, UnheardDb));
    }

    [Theory]
    [InlineData(8000, 10, 5)]
    [InlineData(2000, 1, 5)]
    [InlineData(1000, 0.05, 70)]
    [InlineData(5000, 0.05, 5)]
    [InlineData(18000, 1, 5)]
    public void A_loop_folds_little_more_than_a_plain_one_at_eight_times_the_rate(double freqHz, double attack, double release)
    {
        var plain = FoldedProducts.OfPlain(freqHz, 1, 48000, -20, 10, 6, attack, release, isFeedback: true);

        var folded = FoldedProducts.OfCompress(freqHz, 1, 48000, (Compress.Topology, "feedback"), (Compress.Ratio, 10.0), (Compress.Attack, attack), (Compress.Release, release));

        Assert.InRange(folded, double.NegativeInfinity, Math.Max(plain + OverPlainLoopDb, UnheardDb));
    }

    [Theory]
    [InlineData("feed_forward", 44100)]
    [InlineData("feed_forward", 48000)]
    [InlineData("feedback", 48000)]
    [InlineData("feed_forward", 96000)]
    public void A_high_sine_is_turned_down_alike_at_any_phase(string topology, int sampleRate)
    {
        foreach (var freqHz in new[] { 6000, 8000, 12000, 16000, 19200 })
        {
            for (var phase = 0; phase < 8; phase++)
            {
                var settings = Settings.Of(Compress.Definition.Parameters, (Compress.Topology, topology), (Compress.Ratio, 10.0));
                var output = Run.Through(Compress.Definition, settings, [Signals.Sine(sampleRate, freqHz, 1, phase * Math.PI / 8, sampleRate)], sampleRate: sampleRate)[0];

                Assert.Equal(-18, Spectrum.Decibels(Spectrum.AmplitudeAt(output.AsSpan(sampleRate / 2, sampleRate / 2), freqHz, sampleRate)), DynamicsTolerance.SineDb);
            }
        }
    }

    [Theory]
    [InlineData("feed_forward")]
    [InlineData("feedback")]
    public void Look_ahead_brings_the_gain_early_and_leaves_the_sound_in_time(string topology)
    {
        const int Ahead = 5 * 48;
        var settings = new (Parameter, object)[] { (Compress.Topology, topology), (Compress.Attack, 1.0) };
        var input = Steady.Steps((4800, -40), (9600, 0));

        var without = Steady.GainDb(Compress.Definition, Settings.Of(Compress.Definition.Parameters, settings), input);
        var with = Steady.GainDb(Compress.Definition, Settings.Of(Compress.Definition.Parameters, [.. settings, (Compress.Ahead, 5.0)]), input);

        for (var n = 1000; n < 9600; n++)
        {
            Assert.Equal(without[n + Ahead], with[n], DynamicsTolerance.EdgeDb);
        }

        Assert.True(without[4800] > -2);
        Assert.True(with[4800] < -14);
    }

    [Fact]
    public void Curve_is_in_time_with_the_sound_once_the_latency_is_out()
    {
        var input = Steady.Steps((4800, -40), (9600, 0));
        foreach (var (ahead, window) in new[] { (0.0, 10), (10.0, 9) })
        {
            var settings = Settings.Of(Compress.Definition.Parameters, (Compress.Attack, 0.0), (Compress.Ahead, ahead));
            var processor = (Compress)Compress.Definition.Create(settings, new ProcessorContext(new AudioFormat(Run.SampleRate, 1), input.Length));

            Steady.Through(processor, [input]);

            Assert.True(processor.GainCurve.LowestGain[window - 2] > 0.99);
            Assert.Equal(Steady.Amplitude(-15), processor.GainCurve.LowestGain[window], 1e-3);
        }
    }

    [Fact]
    public void Mix_cancels_against_the_untouched_sound_and_the_key_is_in_time()
    {
        var noise = Signals.Noise(9600, 5, Steady.Amplitude(-12));
        var key = Steady.Steps((4800, -60), (4800, 0));
        var settings = new (Parameter, object)[] { (Compress.Ratio, 100.0), (Compress.Knee, 0.0), (Compress.Attack, 0.0), (Compress.Ahead, 1.0) };

        var wet = Steady.Through(Compress.Definition, Settings.Of(Compress.Definition.Parameters, settings), [noise], [key])[0];
        var half = Steady.Through(Compress.Definition, Settings.Of(Compress.Definition.Parameters, [.. settings, (Compress.Mix, 50.0)]), [noise], [key])[0];

        for (var n = 0; n < noise.Length; n++)
        {
            Assert.Equal((noise[n] + wet[n]) / 2, half[n], 1e-12);
        }

        Assert.Equal(noise[..4600], wet[..4600]);
        Assert.Equal(Steady.Amplitude(-19.8), wet[9000] / noise[9000], 1e-4);
    }

    // A gain applied at the frame rate leaves a twentieth of this in the band.
    [Theory]
    [InlineData(0, 20)]
    [InlineData(0.05, 5)]
    [InlineData(1, 70)]
    public void Two_high_tones_come_out_as_from_a_plain_compressor_at_eight_times_the_rate(double attack, double release)
    {
        const int Frames = 9600;
        double Tone(double frame) => 0.5 * (Math.Sin(2 * Math.PI * 13100 * frame / 48000) + Math.Sin((2 * Math.PI * 17300 * frame / 48000) + 0.4));
        var settings = Settings.Of(Compress.Definition.Parameters, (Compress.Ratio, 10.0), (Compress.Attack, attack), (Compress.Release, release));
        var plain = new PlainDetector(-20, 10, 6, attack, release, 8 * 48000);
        var reference = Enumerable.Range(0, 8 * 2 * Frames).Select(i => Tone(i / 8.0) * plain.Next(Tone(i / 8.0))).ToArray();

        var output = Steady.Through(Compress.Definition, settings, [[.. Enumerable.Range(0, 2 * Frames).Select(n => Tone(n))]])[0];

        var worst = Enumerable.Range(1, 200).Select(i => 100.0 * i).Max(freqHz => (
            Spectrum.ResponseAt(output.AsSpan(Frames - 480, Frames), freqHz) / Frames
            - (Spectrum.ResponseAt(reference.AsSpan(8 * (Frames - 480), 8 * Frames), freqHz, 8 * 48000) / (8 * Frames))).Magnitude);
        Assert.InRange(Spectrum.Decibels(2 * worst / 0.05), double.NegativeInfinity, -40);
    }
}
