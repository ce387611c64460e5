using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Tests.Support;
using Xunit.Abstractions;

namespace DrumPrint.Dsp.Tests.Oversampling;

public sealed class OversamplerTests(ITestOutputHelper output)
{
    private const int SampleRate = 44100;

    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(8)]
    [InlineData(16)]
    public void The_band_is_flat_to_20_khz_at_44_khz_and_delayed_by_the_latency(int factor)
    {
        var oversampler = new Oversampler(factor, 0, _ => 1);
        var response = Signals.Impulse((2 * oversampler.LatencyFrames) + 200, 50);

        Through(oversampler, response, new Wire());

        var worst = 0.0;
        foreach (var freq in Enumerable.Range(0, 201).Select(i => i * 100.0))
        {
            var delayed = System.Numerics.Complex.FromPolarCoordinates(1, -2 * Math.PI * freq * (50 + oversampler.LatencyFrames) / SampleRate);
            var error = (Spectrum.ResponseAt(response, freq, SampleRate) / delayed) - 1;
            worst = Math.Max(worst, error.Magnitude);
        }

        output.WriteLine($"{factor}x: latency {oversampler.LatencyFrames} frames, worst deviation {Spectrum.Decibels(1 + worst):0.0000000} dB, null {Spectrum.Decibels(worst):0.0} dB");
        Assert.InRange(Spectrum.Decibels(1 + worst), 0, SaturationTolerance.PassBandDb);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(8)]
    [InlineData(16)]
    public void Raised_signals_carry_no_images(int factor)
    {
        var oversampler = new Oversampler(factor, 0, _ => 1);
        var worst = 0.0;
        foreach (var freq in new[] { 100.0, 13000, 20000 })
        {
            var tap = new Tap(factor, 4410);

            Through(oversampler, Signals.Sine(5000, freq, sampleRate: SampleRate), tap);

            var raised = tap.Samples.AsSpan(500 * factor, 4410 * factor);
            for (var k = 1; k <= factor / 2; k++)
            {
                worst = Math.Max(worst, Spectrum.AmplitudeAt(raised, (k * SampleRate) - freq, SampleRate * factor));
                worst = Math.Max(worst, k == factor / 2 ? 0 : Spectrum.AmplitudeAt(raised, (k * SampleRate) + freq, SampleRate * factor));
            }
        }

        output.WriteLine($"{factor}x: worst image {Spectrum.Decibels(worst):0.0} dB");
        Assert.InRange(Spectrum.Decibels(worst), double.NegativeInfinity, SaturationTolerance.StopBandDb);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(8)]
    [InlineData(16)]
    public void Nothing_above_half_the_frame_rate_folds_back(int factor)
    {
        var oversampler = new Oversampler(factor, 0, _ => 1);
        var worst = 0.0;
        var step = SampleRate * factor / 2 / 151.0;
        for (var freq = SampleRate / 2.0; freq < SampleRate * factor / 2; freq += step)
        {
            var signal = new double[1500];

            Through(oversampler, signal, new Tone(freq / SampleRate / factor));

            worst = Math.Max(worst, signal.AsSpan(700).ToArray().Max(Math.Abs));
        }

        output.WriteLine($"{factor}x: worst folded tone {Spectrum.Decibels(worst):0.0} dB");
        Assert.InRange(Spectrum.Decibels(worst), double.NegativeInfinity, SaturationTolerance.StopBandDb);
    }

    [Fact]
    public void A_stage_that_lags_by_half_a_sample_is_brought_back_to_a_whole_frame()
    {
        var oversampler = new Oversampler(4, 0.5, f => 1 / Math.Cos(Math.PI * f / 4));
        var signal = Signals.Sine(6000, 9000, sampleRate: SampleRate);
        var expected = (double[])signal.Clone();

        Through(oversampler, signal, new Mean());

        var worst = Enumerable.Range(1000, 4000).Max(n => Math.Abs(signal[n + oversampler.LatencyFrames] - expected[n]));
        Assert.InRange(Spectrum.Decibels(worst), double.NegativeInfinity, SaturationTolerance.StopBandDb);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(8)]
    public void Where_blocks_are_cut_changes_no_bit(int factor)
    {
        var whole = Signals.Noise(1000);
        Through(new Oversampler(factor, 0, _ => 1), whole, new Wire());

        foreach (var block in new[] { 1, 7, 33, 100 })
        {
            var cut = Signals.Noise(1000);
            Through(new Oversampler(factor, 0, _ => 1), cut, new Wire(), block);

            Assert.Equal(whole, cut);
        }
    }

    [Fact]
    public void Filters_add_up_their_taps_in_order_whatever_the_vectors_width()
    {
        var response = Signals.Noise(23, seed: 3);
        var input = Signals.Noise(2 * 101, seed: 4);
        var filter = PhaseFilter.Halving(response, 2);
        var result = new PhaseBuffer(1, 0);
        for (var n = 0; n < input.Length; n++)
        {
            filter.Input.Row(n & 1, 101)[n / 2] = input[n];
        }

        filter.Run(result, 101);

        for (var frame = 0; frame < 101; frame++)
        {
            var sum = 0.0;
            for (var k = 0; k < response.Length; k++)
            {
                sum += response[k] * ((2 * frame) - k >= 0 ? input[(2 * frame) - k] : 0);
            }

            Assert.Equal(sum, result.Row(0, 101)[frame]);
        }
    }

    private static void Through(Oversampler oversampler, double[] signal, IOversampledStage stage, int block = PhaseBuffer.MaxFrames)
    {
        for (var start = 0; start < signal.Length; start += block)
        {
            oversampler.Process(signal.AsSpan(start, Math.Min(block, signal.Length - start)), stage);
        }
    }

    private sealed class Wire : IOversampledStage
    {
        public void Bend(PhaseBuffer input, PhaseBuffer output, int frames)
        {
            for (var phase = 0; phase < input.Phases; phase++)
            {
                input.Row(phase, frames).CopyTo(output.Row(phase, frames));
            }
        }
    }

    private sealed class Mean : IOversampledStage
    {
        private double _before;

        public void Bend(PhaseBuffer input, PhaseBuffer output, int frames)
        {
            for (var n = 0; n < frames; n++)
            {
                for (var phase = 0; phase < input.Phases; phase++)
                {
                    var x = input.Row(phase, frames)[n];
                    output.Row(phase, frames)[n] = (x + _before) / 2;
                    _before = x;
                }
            }
        }
    }

    private sealed class Tap(int factor, int frames) : IOversampledStage
    {
        private int _frame;

        public double[] Samples { get; } = new double[(frames + 1000) * factor];

        public void Bend(PhaseBuffer input, PhaseBuffer output, int frames)
        {
            for (var n = 0; n < frames; n++, _frame++)
            {
                for (var phase = 0; phase < factor; phase++)
                {
                    Samples[(_frame * factor) + phase] = input.Row(phase, frames)[n];
                }
            }
        }
    }

    private sealed class Tone(double cyclesPerSample) : IOversampledStage
    {
        private long _sample;

        public void Bend(PhaseBuffer input, PhaseBuffer output, int frames)
        {
            for (var n = 0; n < frames; n++)
            {
                for (var phase = 0; phase < output.Phases; phase++)
                {
                    output.Row(phase, frames)[n] = Math.Sin(2 * Math.PI * cyclesPerSample * _sample++);
                }
            }
        }
    }
}
