using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Resampling;
using DrumPrint.Dsp.Spectral;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Spectral;

public sealed class ConvolveTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(17)]
    [InlineData(4095)]
    [InlineData(4096)]
    [InlineData(4097)]
    [InlineData(96000)]
    [InlineData(480001)]
    public void Mono_impulse_gives_the_direct_sum(int impulseFrames)
    {
        var h = Decaying(impulseFrames, 1);
        var x = Signals.Noise(50000, 2);

        var y = Aligned([x], ImpulseLayout.Mono, [h], out _);

        AssertDirect(y[0], n => DirectConvolution.At(x, h, n));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(17)]
    [InlineData(4096)]
    [InlineData(9000)]
    [InlineData(96000)]
    [InlineData(480001)]
    public void True_stereo_impulse_sends_each_source_side_to_both_receiving_sides(int impulseFrames)
    {
        var h = Enumerable.Range(0, 4).Select(c => Decaying(impulseFrames, (ulong)c + 10)).ToArray();
        var (left, right) = (Signals.Noise(20000, 3), Signals.Noise(20000, 4));

        var y = Aligned([left, right], ImpulseLayout.TrueStereo, h, out _);

        AssertDirect(y[0], n => DirectConvolution.At(left, h[0], n) + DirectConvolution.At(right, h[2], n));
        AssertDirect(y[1], n => DirectConvolution.At(left, h[1], n) + DirectConvolution.At(right, h[3], n));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(17)]
    [InlineData(3000)]
    [InlineData(4096)]
    [InlineData(96000)]
    [InlineData(480001)]
    public void Stereo_impulse_keeps_left_left_and_right_right(int impulseFrames)
    {
        double[][] h = [Decaying(impulseFrames, 5), Decaying(impulseFrames, 6)];
        var (left, right) = (Signals.Noise(10000, 7), Signals.Noise(10000, 8));

        var y = Aligned([left, right], ImpulseLayout.Stereo, h, out _);

        AssertDirect(y[0], n => DirectConvolution.At(left, h[0], n));
        AssertDirect(y[1], n => DirectConvolution.At(right, h[1], n));
    }

    [Fact]
    public void Mono_impulse_treats_both_sides_of_a_stereo_signal_alike()
    {
        var h = Decaying(3000, 9);
        var (left, right) = (Signals.Noise(10000, 10), Signals.Noise(10000, 11));

        var y = Aligned([left, right], ImpulseLayout.Mono, [h], out _);

        AssertDirect(y[0], n => DirectConvolution.At(left, h, n));
        AssertDirect(y[1], n => DirectConvolution.At(right, h, n));
    }

    [Theory]
    [InlineData(ImpulseLayout.Stereo, 2)]
    [InlineData(ImpulseLayout.TrueStereo, 4)]
    public void Mono_signal_comes_out_stereo_and_equal_to_a_centred_stereo_signal(ImpulseLayout layout, int channels)
    {
        var h = Enumerable.Range(0, channels).Select(c => Decaying(5000, (ulong)c + 20)).ToArray();
        var x = Signals.Noise(10000, 12);

        var mono = Aligned([x], layout, h, out _, (Convolve.Level, "energy"));

        var stereo = Aligned([x, x], layout, h, out _, (Convolve.Level, "energy"));
        Assert.Equal(2, mono.Length);
        AssertDirect(mono[0], n => stereo[0][n]);
        AssertDirect(mono[1], n => stereo[1][n]);
    }

    [Fact]
    public void Impulse_in_gives_the_impulse_response_at_the_stated_latency()
    {
        var h = Decaying(700, 13);

        var y = Aligned([Signals.Impulse(2000)], ImpulseLayout.Mono, [h], out var processor);

        AssertDirect(y[0], n => n < h.Length ? h[n] : 0);
        Assert.Equal(h.Length, processor.TailFrames);
    }

    [Fact]
    public void Pre_delay_waits_the_nearest_whole_number_of_frames()
    {
        var h = Decaying(700, 14);
        var x = Signals.Noise(30000, 15);
        const int Wait = 1234; // 25.71 ms at 48 kHz is 1234.08 frames

        var y = Aligned([x], ImpulseLayout.Mono, [h], out var processor, (Convolve.PreDelay, 25.71));

        AssertDirect(y[0], n => n < Wait ? 0 : DirectConvolution.At(x, h, n - Wait));
        Assert.Equal(h.Length + Wait, processor.TailFrames);
    }

    [Fact]
    public void Dry_part_of_the_mix_lines_up_with_the_wet_part()
    {
        double[][] h = [Decaying(900, 16), Decaying(900, 17)];
        var x = Signals.Noise(20000, 18);

        var y = Aligned([x], ImpulseLayout.Stereo, h, out _, (Convolve.Mix, 25.0), (Convolve.PreDelay, 3.0));

        AssertDirect(y[0], n => (0.75 * x[n]) + (n < 144 ? 0 : 0.25 * DirectConvolution.At(x, h[0], n - 144)));
        AssertDirect(y[1], n => (0.75 * x[n]) + (n < 144 ? 0 : 0.25 * DirectConvolution.At(x, h[1], n - 144)));
    }

    [Fact]
    public void Trims_and_fade_shape_the_impulse_before_it_is_used()
    {
        var h = Decaying(4800, 19);
        const int Start = 480;
        const int End = 3840;
        const int Fade = 960;

        var y = Aligned([Signals.Impulse(6000)], ImpulseLayout.Mono, [h], out _, (Convolve.TrimStart, 10.0), (Convolve.TrimEnd, 0.08), (Convolve.Fade, 20.0));

        AssertDirect(y[0], n =>
        {
            var fadeStart = End - Start - Fade;
            var gain = n < fadeStart ? 1 : 0.5 + (0.5 * Math.Cos(Math.PI * (n - fadeStart + 1) / (Fade + 1)));
            return n < End - Start ? h[n + Start] * gain : 0;
        });
    }

    [Fact]
    public void Energy_gain_gives_each_source_side_0_dB_over_its_receiving_sides()
    {
        var h = Enumerable.Range(0, 4).Select(c => Decaying(2000, (ulong)c + 30, 1.0 / (c + 1))).ToArray();

        var fromLeft = Aligned([Signals.Impulse(4000), Signals.Silence(4000)], ImpulseLayout.TrueStereo, h, out _, (Convolve.Level, "energy"));
        var fromRight = Aligned([Signals.Silence(4000), Signals.Impulse(4000)], ImpulseLayout.TrueStereo, h, out _, (Convolve.Level, "energy"));

        Assert.Equal(1, fromLeft.Sum(c => c.Sum(x => x * x)), Tolerance.Rounding);
        Assert.Equal(1, fromRight.Sum(c => c.Sum(x => x * x)), Tolerance.Rounding);
        Assert.Equal(h[0].Sum(x => x * x) / h[1].Sum(x => x * x), fromLeft[0].Sum(x => x * x) / fromLeft[1].Sum(x => x * x), 1e-9);
    }

    // Rooms from dark to bright: noise falling by 60 dB in half a second through one pole.
    [Theory]
    [InlineData(300)]
    [InlineData(2000)]
    [InlineData(20000)]
    public void Loudness_gain_brings_pink_noise_back_as_loud_as_it_went_in(double cornerHz)
    {
        var h = Enumerable.Range(0, 4).Select(c => Dark(Decaying(24000, (ulong)c + 80), cornerHz)).ToArray();
        var pink = PinkNoise.Make(1 << 19, 81);

        var y = Aligned([pink, Signals.Silence(pink.Length)], ImpulseLayout.TrueStereo, h, out _, (Convolve.Level, "loudness"));

        Assert.Equal(PinkNoise.Lufs([pink]), PinkNoise.Lufs(y), SpectralTolerance.PinkLoudnessLu);
    }

    [Fact]
    public void Loudness_gain_leaves_a_single_click_at_1()
    {
        var y = Aligned([Signals.Impulse(2000)], ImpulseLayout.Mono, [[0, 3, 0]], out _, (Convolve.Level, "loudness"));

        Assert.Equal(1, y[0].Max(), Tolerance.Rounding);
    }

    [Theory]
    [InlineData(32000, 48000)]
    [InlineData(44100, 48000)]
    [InlineData(96000, 48000)]
    [InlineData(192000, 48000)]
    [InlineData(48000, 44100)]
    [InlineData(44100, 44101)]
    public void An_impulse_at_another_rate_answers_as_at_its_own(int fromHz, int toHz)
    {
        // A click at once is 1 at every frequency, whatever the rate.
        var impulse = ImpulseConversion.Convert("space", ImpulseLayout.Mono, [[1.0]], fromHz, toHz);
        var context = new ProcessorContext(new AudioFormat(toHz, 1), 0, 0, new Dictionary<string, Impulse> { ["space"] = impulse });
        var processor = Convolve.Definition.Create(Of([]), context);
        var y = Run.Through(processor, [Signals.Impulse(2000, 1000)], 1, 480, processor.LatencyFrames)[0];

        for (var i = 1; i <= 60; i++)
        {
            var freq = 0.45 * Math.Min(fromHz, toHz) * i / 60;
            var late = System.Numerics.Complex.FromPolarCoordinates(1, -2 * Math.PI * freq / toHz * (1000 + processor.LatencyFrames));
            Assert.InRange((Spectrum.ResponseAt(y, freq, toHz) - late).Magnitude, 0, SpectralTolerance.ConvertedImpulse);
        }
    }

    [Fact]
    public void Times_of_a_converted_impulse_count_from_its_start_and_dry_and_wet_line_up()
    {
        var file = Signals.Impulse(9600, 4800);
        file[0] = 1;
        var impulse = ImpulseConversion.Convert("space", ImpulseLayout.Mono, [file], 96000, 48000);
        var impulses = new Dictionary<string, Impulse> { ["space"] = impulse };
        double[] Peaks(params (Parameter, object)[] settings)
        {
            var processor = Convolve.Definition.Create(Of(settings), new ProcessorContext(new AudioFormat(48000, 1), 0, 0, impulses));
            return Run.Through(processor, [Signals.Impulse(9000, 1000)], 1, 480, processor.LatencyFrames)[0][(1000 + processor.LatencyFrames)..];
        }

        // A click halfway up to half the rate and beyond comes out as a sinc, 0.95 high.
        const double Near = 0.02;
        Assert.Equal((0.95, 0.95), (Peaks()[0], Peaks()[2400]), (a, b) => Math.Abs(a.Item1 - b.Item1) < Near && Math.Abs(a.Item2 - b.Item2) < Near);
        Assert.Equal(0.95, Peaks((Convolve.PreDelay, 1.0))[48], Near);
        Assert.Equal(0.95, Peaks((Convolve.PreDelay, 10.0))[480], Near);
        Assert.Equal(0.95, Peaks((Convolve.TrimStart, 25.0))[1200], Near);
        Assert.Equal(0, Peaks((Convolve.TrimEnd, 0.04))[2400], Near);
        Assert.Equal(0.5 + (0.5 * 0.95), Peaks((Convolve.Mix, 50.0))[0], Near);
        Assert.Equal(0.5, Peaks((Convolve.Mix, 50.0), (Convolve.PreDelay, 1.0))[0], Near);
    }

    [Fact]
    public void A_converted_impulse_that_begins_with_silence_has_nothing_ahead_of_it()
    {
        var impulse = ImpulseConversion.Convert("space", ImpulseLayout.Mono, [Signals.Impulse(9600, 4800)], 96000, 48000);

        Assert.Equal(0, impulse.LeadFrames);
        Assert.Equal(2400, Array.IndexOf(impulse.Channels[0], impulse.Channels[0].Max()));
    }

    [Fact]
    public void Peak_gain_brings_the_largest_sample_of_all_channels_to_1()
    {
        double[][] h = [Decaying(2000, 34, 0.3), Decaying(2000, 35, 0.1)];

        var y = Aligned([Signals.Impulse(4000), Signals.Impulse(4000)], ImpulseLayout.Stereo, h, out _, (Convolve.Level, "peak"));

        Assert.Equal(1, y[0].Max(Math.Abs), Tolerance.Rounding);
        Assert.Equal(h[1].Max(Math.Abs) / h[0].Max(Math.Abs), y[1].Max(Math.Abs), Tolerance.Rounding);
    }

    [Theory]
    [InlineData(1, 17)]
    [InlineData(7, 17)]
    [InlineData(480, 9000)]
    [InlineData(1000000, 9000)]
    public void Cuts_between_blocks_never_show(int blockFrames, int impulseFrames)
    {
        double[][] h = [Decaying(impulseFrames, 40), Decaying(impulseFrames, 41)];
        double[][] x = [Signals.Noise(20000, 42), Signals.Noise(20000, 43)];
        (Parameter, object)[] settings = [(Convolve.Mix, 60.0), (Convolve.PreDelay, 5.0)];

        var want = Output(x, ImpulseLayout.Stereo, h, 64, settings);

        Assert.Equal(want, Output(x, ImpulseLayout.Stereo, h, blockFrames, settings));
    }

    [Fact]
    public void Block_is_chosen_by_the_impulse_and_not_by_the_length_of_the_render()
    {
        var impulses = Impulses(ImpulseLayout.Mono, [Decaying(9000, 46)]);

        var latencies = new long[] { 100, 100000, 100000000 }.Select(frames =>
            Convolve.Definition.Create(Of([]), new ProcessorContext(new AudioFormat(Run.SampleRate, 1), frames, 0, impulses)).LatencyFrames);

        Assert.Single(latencies.Distinct());
    }

    [Theory]
    [InlineData(64, 1, 2048)]
    [InlineData(4800, 1, 8192)]
    [InlineData(124800, 4, 65536)]
    public void Longer_impulse_gets_a_longer_block_up_to_65536_frames(int impulseFrames, int paths, int longest)
    {
        var block = ConvolutionBlock.For(impulseFrames, paths == 1 ? 2 : 4, paths);

        Assert.InRange(block, Math.Min(impulseFrames, 65536), longest);
    }

    [Fact]
    public void Each_block_is_exchanged_for_another_of_its_length()
    {
        var convolver = new PartitionedConvolver([Decaying(300, 47)], [new ConvolutionPath(0, 0, 0)], 256);
        var block = Signals.Noise(256, 48);
        double[][] inputs = [block];

        convolver.Process(inputs, [new double[256]]);

        Assert.NotSame(block, inputs[0]);
        Assert.Equal(block.Length, inputs[0].Length);
    }

    [Fact]
    public void Processing_allocates_nothing()
    {
        var processor = Create(2, ImpulseLayout.TrueStereo, [.. Enumerable.Range(0, 4).Select(c => Decaying(5000, (ulong)c))], [(Convolve.Mix, 50.0), (Convolve.PreDelay, 5.0)]);
        double[][] buffer = [Signals.Noise(50000, 44), Signals.Noise(50000, 45)];

        Assert.Equal(0, Allocations.Of(() => processor.Process(new AudioBlock(buffer, 0, 50000), AudioBlock.None)));
    }

    [Fact]
    public void Every_lane_width_gives_the_same_bits()
    {
        double[][] h = [.. Enumerable.Range(0, 4).Select(c => Decaying(5000, (ulong)c + 50))];
        ConvolutionPath[] paths = [new(0, 0, 0), new(1, 2, 0), new(0, 1, 1), new(1, 3, 1)];
        double[][] x = [Signals.Noise(4096, 54), Signals.Noise(4096, 55)];

        var results = new[] { 1, 2, 4, 8 }.Select(lanes =>
        {
            var convolver = new PartitionedConvolver(h, paths, 1024, lanes);
            double[][] y = [new double[1024], new double[1024]];
            for (var block = 0; block < 4; block++)
            {
                convolver.Process([x[0][(block * 1024)..], x[1][(block * 1024)..]], y);
            }

            return y;
        }).ToArray();

        Assert.All(results, y => Assert.Equal(results[0], y));
    }

    [Fact]
    public void Decay_is_shortened_to_within_5_percent_of_the_target()
    {
        double[][] h = [.. Enumerable.Range(0, 4).Select(c => Decaying(124800, (ulong)c + 60, 1, 1.9))];

        var y = Aligned([Signals.Impulse(130000), Signals.Silence(130000)], ImpulseLayout.TrueStereo, h, out _, (Convolve.DecayTarget, 1.4), (Convolve.Fade, 150.0));

        Assert.InRange(SchroederT30(y, Run.SampleRate), 1.4 / 1.05, 1.4 * 1.05);
    }

    [Fact]
    public void Longer_decay_than_the_impulse_has_is_refused_in_words()
    {
        var refusal = Assert.Throws<SettingsException>(() => Create(1, ImpulseLayout.Mono, [Decaying(48000, 70, 1, 0.8)], [(Convolve.DecayTarget, 2.0)]));

        Assert.Same(Convolve.DecayTarget, refusal.Parameter);
        Assert.Contains("can be shortened but not made longer", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Trimming_everything_away_is_refused_in_words()
    {
        var refusal = Assert.Throws<SettingsException>(() => Create(1, ImpulseLayout.Mono, [Decaying(480, 71)], [(Convolve.TrimStart, 10.0)]));

        Assert.Contains("Nothing is left", refusal.Message, StringComparison.Ordinal);
    }

    // ISO 3382-1:2009: backward integration, least squares from −5 to −35 dB, made out to 60 dB.
    internal static double SchroederT30(double[][] channels, int sampleRate)
    {
        var energy = Enumerable.Range(0, channels[0].Length).Select(n => channels.Sum(c => c[n] * c[n])).ToArray();
        var remaining = energy.Sum();
        var total = remaining;
        var points = new List<(double T, double L)>();
        for (var n = 0; n < energy.Length; n++)
        {
            var level = 10 * Math.Log10(Math.Max(remaining, 0) / total);
            if (level is <= -5 and >= -35)
            {
                points.Add(((double)n / sampleRate, level));
            }

            remaining -= energy[n];
        }

        var (_, slope) = MathNet.Numerics.LinearRegression.SimpleRegression.Fit([.. points.Select(p => p.T)], [.. points.Select(p => p.L)]);
        return -60 / slope;
    }

    [Theory]
    [InlineData(ImpulseLayout.Stereo, 2)]
    [InlineData(ImpulseLayout.TrueStereo, 4)]
    public void Blocks_that_were_only_taken_in_are_heard_in_what_follows(ImpulseLayout layout, int channels)
    {
        const int Blocks = 200;
        const int TakenIn = 120;
        var h = Enumerable.Range(0, channels).Select(c => Decaying(30000, (ulong)c + 10)).ToArray();
        var (whole, part) = (Create(2, layout, h, []), Create(2, layout, h, []));
        var firstHeard = TakenIn + 1 + (int)(whole.LatencyFrames / 480);
        for (var block = 0; block < Blocks; block++)
        {
            double[][] a = [Signals.Noise(480, (ulong)block + 1), Signals.Noise(480, (ulong)block + 1000)];
            double[][] b = [.. a.Select(c => c.ToArray())];
            whole.Process(new AudioBlock(a, 0, 480), AudioBlock.None);
            if (block < TakenIn)
            {
                part.TakeIn(new AudioBlock(b, 0, 480), AudioBlock.None);
            }
            else
            {
                part.Process(new AudioBlock(b, 0, 480), AudioBlock.None);
            }

            if (block >= firstHeard)
            {
                Assert.Equal(a[0], b[0]);
                Assert.Equal(a[1], b[1]);
            }
        }
    }

    private static double[] Dark(double[] x, double cornerHz)
    {
        var (y, keep) = (0.0, Math.Exp(-2 * Math.PI * cornerHz / Run.SampleRate));
        return Array.ConvertAll(x, v => y = ((1 - keep) * v) + (keep * y));
    }

    // Noise falling by 60 dB in the given time.
    private static double[] Decaying(int frames, ulong seed, double level = 1, double decaySeconds = 0.5)
    {
        var noise = Signals.Noise(frames, seed, level);
        return [.. noise.Select((x, n) => x * Math.Pow(10, -3.0 * n / (decaySeconds * Run.SampleRate)))];
    }

    private static Settings Of((Parameter, object)[] settings)
    {
        var all = settings.Prepend((Convolve.ImpulseName, "space"));
        return Settings.Of(Convolve.Definition.Parameters, settings.Any(s => s.Item1 == Convolve.Level) ? all : all.Append((Convolve.Level, "as_is")));
    }

    private static Dictionary<string, Impulse> Impulses(ImpulseLayout layout, double[][] h) =>
        new() { ["space"] = new Impulse("space", Run.SampleRate, layout, h) };

    private static IProcessor Create(int channels, ImpulseLayout layout, double[][] h, (Parameter, object)[] settings) =>
        Convolve.Definition.Create(Of(settings), new ProcessorContext(new AudioFormat(Run.SampleRate, channels), 0, 0, Impulses(layout, h)));

    private static double[][] Output(double[][] input, ImpulseLayout layout, double[][] h, int blockFrames, (Parameter, object)[] settings) =>
        Run.Through(Convolve.Definition, Of(settings), input, blockFrames, impulses: Impulses(layout, h));

    // Output with the stated latency taken out.
    private static double[][] Aligned(double[][] input, ImpulseLayout layout, double[][] h, out IProcessor processor, params (Parameter, object)[] settings)
    {
        processor = Create(input.Length, layout, h, settings);
        var latency = processor.LatencyFrames;
        var outputs = Convolve.Definition.OutputChannels(Of(settings), new ProcessorContext(new AudioFormat(Run.SampleRate, input.Length), 0, 0, Impulses(layout, h)));
        return Array.ConvertAll(Run.Through(processor, input, outputs, 480, latency), c => c[latency..]);
    }

    private static void AssertDirect(double[] got, Func<int, double> want)
    {
        var peak = got.Max(Math.Abs);
        var step = Math.Max(1, got.Length / 400);
        for (var n = 0; n < got.Length; n = n + 1 < 300 ? n + 1 : n + step)
        {
            Assert.InRange(Math.Abs(got[n] - want(n)), 0, peak * Math.Pow(10, SpectralTolerance.ConvolutionDb / 20));
        }
    }
}
