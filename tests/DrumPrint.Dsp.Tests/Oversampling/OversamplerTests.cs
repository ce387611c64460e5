using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Tests.Support;
using Xunit.Abstractions;

namespace DrumPrint.Dsp.Tests.Oversampling;

public sealed class OversamplerTests(ITestOutputHelper output)
{
    private const int SampleRate = 44100;

    public static TheoryData<int, int> Rates
    {
        get
        {
            var data = new TheoryData<int, int>();
            foreach (var rate in new[] { 44100, 48000, 88200, 96000, 192000 })
            {
                foreach (var factor in new[] { 2, 4, 8, 16 })
                {
                    data.Add(factor, rate);
                }
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Rates))]
    public void The_band_is_flat_to_20_khz_and_delayed_by_the_latency(int factor, int rate)
    {
        var oversampler = new Oversampler(new OversamplerDesign(factor, rate, 0, _ => 1, true), 1);
        var response = Signals.Impulse((2 * oversampler.LatencyFrames) + 200, 50);

        Through(oversampler, response, new Wire());

        var worst = 0.0;
        foreach (var freq in Enumerable.Range(0, 201).Select(i => i * 100.0))
        {
            var delayed = System.Numerics.Complex.FromPolarCoordinates(1, -2 * Math.PI * freq * (50 + oversampler.LatencyFrames) / rate);
            var error = (Spectrum.ResponseAt(response, freq, rate) / delayed) - 1;
            worst = Math.Max(worst, error.Magnitude);
        }

        output.WriteLine($"{factor}x {rate} Hz: latency {oversampler.LatencyFrames} frames, worst deviation {Spectrum.Decibels(1 + worst):0.0000000} dB, null {Spectrum.Decibels(worst):0.0} dB");
        Assert.InRange(Spectrum.Decibels(1 + worst), 0, SaturationTolerance.PassBandDb);
    }

    [Theory]
    [InlineData(88200)]
    [InlineData(96000)]
    [InlineData(192000)]
    public void High_rates_keep_what_lies_above_the_ear(int rate)
    {
        var oversampler = new Oversampler(new OversamplerDesign(2, rate, 0, _ => 1, true), 1);
        var response = Signals.Impulse((2 * oversampler.LatencyFrames) + 200, 50);

        Through(oversampler, response, new Wire());

        var gains = Enumerable.Range(0, 101).Select(i => Spectrum.Decibels(Spectrum.ResponseAt(response, i * 0.004 * rate, rate).Magnitude));
        Assert.All(gains, gain => Assert.InRange(gain, -SaturationTolerance.PassBandDb, SaturationTolerance.PassBandDb));
    }

    [Theory]
    [MemberData(nameof(Rates))]
    public void Raised_signals_carry_no_images(int factor, int rate)
    {
        var oversampler = new Oversampler(new OversamplerDesign(factor, rate, 0, _ => 1, true), 1);
        var frames = rate / 10;
        var worst = 0.0;
        foreach (var freq in new[] { 100.0, 13000, 20000 })
        {
            var tap = new Tap(factor, frames);

            Through(oversampler, Signals.Sine(frames + 590, freq, sampleRate: rate), tap);

            var raised = tap.Samples.AsSpan(500 * factor, frames * factor);
            for (var k = 1; k <= factor / 2; k++)
            {
                worst = Math.Max(worst, Spectrum.AmplitudeAt(raised, (k * rate) - freq, rate * factor));
                worst = Math.Max(worst, k == factor / 2 ? 0 : Spectrum.AmplitudeAt(raised, (k * rate) + freq, rate * factor));
            }
        }

        output.WriteLine($"{factor}x {rate} Hz: worst image {Spectrum.Decibels(worst):0.0} dB");
        Assert.InRange(Spectrum.Decibels(worst), double.NegativeInfinity, SaturationTolerance.StopBandDb);
    }

    [Theory]
    [MemberData(nameof(Rates))]
    public void Nothing_above_half_the_frame_rate_folds_back(int factor, int rate)
    {
        var oversampler = new Oversampler(new OversamplerDesign(factor, rate, 0, _ => 1, true), 1);
        var worst = 0.0;
        var step = rate * factor / 2 / 151.0;
        for (var freq = rate / 2.0; freq < rate * factor / 2; freq += step)
        {
            var signal = new double[1500];

            Through(oversampler, signal, new Tone(freq / rate / factor));

            worst = Math.Max(worst, signal.AsSpan(700).ToArray().Max(Math.Abs));
        }

        output.WriteLine($"{factor}x {rate} Hz: worst folded tone {Spectrum.Decibels(worst):0.0} dB");
        Assert.InRange(Spectrum.Decibels(worst), double.NegativeInfinity, SaturationTolerance.StopBandDb);
    }

    [Fact]
    public void A_stage_that_lags_by_half_a_sample_is_brought_back_to_a_whole_frame()
    {
        var oversampler = new Oversampler(new OversamplerDesign(4, SampleRate, 0.5, f => 1 / Math.Cos(Math.PI * f / 4), true), 1);
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
        Through(new Oversampler(new OversamplerDesign(factor, SampleRate, 0, _ => 1, true), 1), whole, new Wire());

        foreach (var block in new[] { 1, 7, 33, 100 })
        {
            var cut = Signals.Noise(1000);
            Through(new Oversampler(new OversamplerDesign(factor, SampleRate, 0, _ => 1, true), 1), cut, new Wire(), block);

            Assert.Equal(whole, cut);
        }
    }

    [Theory]
    [InlineData(2, 1)]
    [InlineData(2, 2)]
    [InlineData(4, 1)]
    [InlineData(8, 3)]
    public void Halving_is_the_response_and_then_every_other_sample(int phases, int channels)
    {
        const int Frames = 101;
        var response = Signals.Noise(23, seed: 3);
        var inputs = Enumerable.Range(4, channels).Select(seed => Signals.Noise(phases * Frames, seed: (ulong)seed)).ToArray();
        var filter = PhaseFilter.Halving(response, phases, channels);

        var result = Filtered(filter, inputs, phases, phases / 2, Frames);

        for (var m = 0; m < result[0].Length; m++)
        {
            for (var channel = 0; channel < channels; channel++)
            {
                var expected = response.Select((h, k) => (2 * m) - k >= 0 ? h * inputs[channel][(2 * m) - k] : 0).Sum();
                Assert.Equal(expected, result[channel][m], Tolerance.Rounding);
            }
        }
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(1, 2)]
    [InlineData(2, 3)]
    [InlineData(8, 2)]
    public void Doubling_is_zeros_between_the_samples_and_then_the_response(int phases, int channels)
    {
        const int Frames = 101;
        var response = BandFilter.Down(1);
        var inputs = Enumerable.Range(4, channels).Select(seed => Signals.Noise(phases * Frames, seed: (ulong)seed)).ToArray();
        var filter = PhaseFilter.Doubling(response, phases, channels);

        var result = Filtered(filter, inputs, phases, 2 * phases, Frames);

        for (var m = 0; m < result[0].Length; m++)
        {
            for (var channel = 0; channel < channels; channel++)
            {
                var expected = response.Select((h, k) => m - k >= 0 && ((m - k) & 1) == 0 ? 2 * h * inputs[channel][(m - k) / 2] : 0).Sum();
                Assert.Equal(expected, result[channel][m], Tolerance.Rounding);
            }
        }
    }

    [Fact]
    public void A_sum_is_added_up_in_the_order_of_its_steps_whatever_the_vectors_width()
    {
        var input = Signals.Noise(1000, seed: 4);
        var taps = Enumerable.Range(0, 9).Select(i => Signals.Noise(4, seed: (ulong)i)).ToArray();
        int[] starts = [40, 41, 42, 43];
        foreach (var count in new[] { 2, 4 })
        {
            var group = new SumGroup([.. taps.Select((t, i) => (7 * i, t[..count]))], starts[..count], 0.5);
            var results = new double[count * PhaseBuffer.MaxFrames];

            group.Run(input, ref results[0], PhaseBuffer.MaxFrames, 101);

            for (var n = 0; n < 101; n++)
            {
                for (var sum = 0; sum < count; sum++)
                {
                    var expected = 0.5 * input[starts[sum] + n];
                    for (var i = 0; i < taps.Length; i++)
                    {
                        expected = Math.FusedMultiplyAdd(taps[i][sum], input[(7 * i) + n], expected);
                    }

                    Assert.Equal(expected, results[(sum * PhaseBuffer.MaxFrames) + n]);
                }
            }
        }
    }

    private static double[][] Filtered(PhaseFilter filter, double[][] inputs, int phasesIn, int phasesOut, int frames)
    {
        var channels = inputs.Length;
        var output = new PhaseBuffer(phasesOut, 0, channels);
        var results = inputs.Select(_ => new double[phasesOut * frames]).ToArray();
        foreach (var (start, count) in new[] { (0, 40), (40, 1), (41, frames - 41) })
        {
            for (var channel = 0; channel < channels; channel++)
            {
                for (var m = 0; m < phasesIn * count; m++)
                {
                    filter.Input.Row(m % phasesIn, count)[(m / phasesIn * channels) + channel] = inputs[channel][(start * phasesIn) + m];
                }
            }

            filter.Run(output, count);

            for (var channel = 0; channel < channels; channel++)
            {
                for (var m = 0; m < phasesOut * count; m++)
                {
                    results[channel][(start * phasesOut) + m] = output.Row(m % phasesOut, count)[(m / phasesOut * channels) + channel];
                }
            }
        }

        return results;
    }

    private static void Through(Oversampler oversampler, double[] signal, IOversampledStage stage, int block = PhaseBuffer.MaxFrames)
    {
        for (var start = 0; start < signal.Length; start += block)
        {
            oversampler.Process(new AudioBlock([signal], start, Math.Min(block, signal.Length - start)), stage);
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
