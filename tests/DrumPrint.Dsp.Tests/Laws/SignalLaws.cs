using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Laws;

/// <summary>What every processor of the catalogue must hold to, whatever its settings and the signal.</summary>
public sealed class SignalLaws
{
    private const int Frames = 3000;

    // −100 dB, what is promised of a bench after a jump; and four seconds, so that the test stays short.
    private const double Forgotten = 1e-5;
    private const long LongestMemoryTried = 4 * 48000;

    // A minute. The longest that any setting has: a resonance at 5 Hz rings for 50 s.
    private const long LongestTail = 60 * 48000;

    public static TheoryData<string, int> Definitions
    {
        get
        {
            var data = new TheoryData<string, int>();
            foreach (var definition in Catalogue.All)
            {
                data.Add(definition.Key, definition.Revision);
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Definitions))]
    public void Where_blocks_are_cut_changes_no_bit(string key, int revision)
    {
        foreach (var @case in LawCase.All(Find(key, revision)))
        {
            var input = Stereo(Signals.Hits(Frames, 700, 150, seed: 3), Signals.Hits(Frames, 500, 90, seed: 4));
            var whole = @case.Run(input, Frames);

            foreach (var blockFrames in new[] { 1, 7, 64, 480 })
            {
                AssertSame(whole, @case.Run(input, blockFrames), $"{@case.Name}, blocks of {blockFrames}");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Definitions))]
    public void Two_runs_give_the_same_bits(string key, int revision)
    {
        foreach (var @case in LawCase.All(Find(key, revision)))
        {
            var input = Stereo(Signals.Noise(Frames, 5), Signals.Noise(Frames, 6));

            AssertSame(@case.Run(input), @case.Run(input), @case.Name);
        }
    }

    [Theory]
    [MemberData(nameof(Definitions))]
    public void What_comes_out_is_always_a_number(string key, int revision)
    {
        foreach (var @case in LawCase.All(Find(key, revision)))
        {
            foreach (var (name, signal) in Inputs())
            {
                AssertFinite(@case.Run([signal, signal]), $"{@case.Name}, {name}");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Definitions))]
    public void It_works_at_every_sample_rate(string key, int revision)
    {
        foreach (var rate in new[] { 8000, 44100, 192000, 384000 })
        {
            foreach (var @case in LawCase.All(Find(key, revision), randomCount: 2, rate, channels: [2]))
            {
                AssertFinite(@case.Run(Stereo(Signals.Noise(Frames, 8), Signals.Noise(Frames, 9))), @case.Name);
            }
        }
    }

    // Begun as long before a stretch as it says that it remembers, a processor gives that stretch as if it had always run.
    [Theory]
    [MemberData(nameof(Definitions))]
    public void What_came_before_its_memory_is_heard_no_more(string key, int revision)
    {
        const int about = 60137;
        const int stretch = 4800;
        var tried = 0;
        foreach (var @case in LawCase.All(Find(key, revision), randomCount: 3))
        {
            var processor = @case.Create();
            var remembers = processor.MemoryFrames + processor.LatencyFrames;
            if (remembers > LongestMemoryTried)
            {
                continue;
            }

            tried++;
            var before = about - (about % processor.StepFrames);
            var frames = before + (int)remembers + stretch;
            var input = Stereo(Signals.Hits(frames, 24000, 3000, seed: 3), Signals.Hits(frames, 18000, 2500, seed: 4));
            var whole = @case.Run(input);
            var late = @case.Run([.. input.Select(c => c[before..])]);

            for (var channel = 0; channel < whole.Length; channel++)
            {
                var peak = Math.Max(1, whole[channel].Max(Math.Abs));
                var difference = Enumerable.Range(frames - stretch, stretch).Max(n => Math.Abs(whole[channel][n] - late[channel][n - before]));
                Assert.True(difference <= (processor.ForgetsWholly ? 0 : Forgotten * peak), $"{@case.Name}: {difference / peak}, {remembers} frames");
            }
        }

        Assert.True(tried > 0);
    }

    [Theory]
    [MemberData(nameof(Definitions))]
    public void Silence_in_gives_silence_out(string key, int revision)
    {
        foreach (var @case in LawCase.All(Find(key, revision)))
        {
            var output = @case.Run(Stereo(Signals.Silence(Frames), Signals.Silence(Frames)), key: Stereo(Signals.Noise(Frames), Signals.Noise(Frames)));

            Assert.All(output, channel => Assert.True(channel.Max(Math.Abs) <= LawTolerance.Silence, $"{@case.Name}: {channel.Max(Math.Abs)}"));
        }
    }

    [Theory]
    [MemberData(nameof(Definitions))]
    public void Nothing_subnormal_comes_out_as_the_sound_fades(string key, int revision)
    {
        foreach (var @case in LawCase.All(Find(key, revision), channels: [2]))
        {
            var burst = Signals.Noise(500, 11);

            var output = @case.Run([burst, burst], extraFrames: 20000);

            Assert.All(output, channel => Assert.True(!channel.Any(double.IsSubnormal), @case.Name));
        }
    }

    [Theory]
    [MemberData(nameof(Definitions))]
    public void Left_and_right_swapped_in_come_out_swapped(string key, int revision)
    {
        foreach (var @case in LawCase.All(Find(key, revision), channels: [2]).Where(c => c.Outputs == 2 && !NamesASide(c.Settings, Find(key, revision))))
        {
            var left = Signals.Hits(Frames, 700, 150, seed: 3);
            var right = Signals.Hits(Frames, 500, 90, seed: 4);

            // The key stays as it is: one of its channels may be all that is given.
            var straight = @case.Run([left, right], key: [left, left]);
            var swapped = @case.Run([right, left], key: [left, left]);

            AssertSame([straight[1], straight[0]], swapped, @case.Name);
        }
    }

    [Theory]
    [MemberData(nameof(Definitions))]
    public void Separate_channels_give_the_same_bits_one_by_one(string key, int revision)
    {
        var definition = Find(key, revision);
        foreach (var @case in LawCase.All(definition, channels: [2]).Where(c => definition.HasSeparateChannels(c.Settings)))
        {
            Assert.False(definition.TakesKey);
            var input = Stereo(Signals.Hits(Frames, 700, 150, seed: 3), Signals.Hits(Frames, 500, 90, seed: 4));

            AssertSame(@case.Run(input), [@case.OfOneChannel(input[0]), @case.OfOneChannel(input[1])], @case.Name);
        }
    }

    [Theory]
    [MemberData(nameof(Definitions))]
    public void Nothing_is_allocated_while_it_runs(string key, int revision)
    {
        foreach (var @case in LawCase.All(Find(key, revision), randomCount: 2, channels: [2]))
        {
            var processor = @case.Create();
            var buffer = Stereo(Signals.Noise(480, 12), Signals.Noise(480, 13));
            var keyBuffer = Stereo(Signals.Noise(480, 14), Signals.Noise(480, 15));

            var allocated = Allocations.Of(() => ProcessBlocks(processor, buffer, keyBuffer));

            Assert.True(allocated == 0, $"{@case.Name}: {allocated} bytes");
        }
    }

    [Theory]
    [MemberData(nameof(Definitions))]
    public void It_has_rung_off_when_its_tail_is_over(string key, int revision)
    {
        foreach (var @case in LawCase.All(Find(key, revision), randomCount: 2, channels: [2]))
        {
            var processor = @case.Create();
            Assert.InRange(processor.LatencyFrames, 0, int.MaxValue);
            Assert.InRange(processor.TailFrames, 0, long.MaxValue);
            Assert.InRange(processor.TailFrames, 0, LongestTail);
            var over = processor.LatencyFrames + processor.TailFrames;

            var burst = Signals.Noise(1000, 16);
            var output = @case.Run([burst, burst], extraFrames: (int)over + 1000);

            var peak = Math.Max(1, output.Max(channel => channel.Max(Math.Abs)));
            var left = output.Max(channel => channel.AsSpan(1000 + (int)over).ToArray().Max(Math.Abs));
            Assert.True(left <= peak * LawTolerance.RungOff, $"{@case.Name}: {Spectrum.Decibels(left / peak)} dB left");
        }
    }

    [Theory]
    [MemberData(nameof(Definitions))]
    public void Untouched_a_click_comes_out_where_the_latency_says(string key, int revision)
    {
        var definition = Find(key, revision);
        if (definition.Parameters.OfType<ListParameter>().Any(l => l.IsRequired))
        {
            // A list that must be given has no default; whatever stands in it moves the peak.
            return;
        }

        var @case = LawCase.All(definition, randomCount: 0, channels: [2])[0];
        var click = Signals.Impulse(8000, at: 1000, level: 0.5);

        var output = @case.Run([click, click], extraFrames: @case.Create().LatencyFrames)[0];

        var peak = Array.IndexOf(output, output.MaxBy(Math.Abs));
        Assert.InRange(peak - 1000 - @case.Create().LatencyFrames, -LawTolerance.ClickFrames, LawTolerance.ClickFrames);
    }

    private static ProcessorDefinition Find(string key, int revision) => Catalogue.Find(key, revision)!;

    private static double[][] Stereo(double[] left, double[] right) => [left, right];

    private static IEnumerable<(string Name, double[] Signal)> Inputs() =>
    [
        ("silence", Signals.Silence(Frames)),
        ("direct current", [.. Enumerable.Repeat(1.0, Frames)]),
        ("square", [.. Enumerable.Range(0, Frames).Select(n => n / 50 % 2 == 0 ? 1.0 : -1)]),
        ("impulse", Signals.Impulse(Frames, at: 100)),
        ("noise", Signals.Noise(Frames, 10)),
    ];

    // Settings that name a side treat left and right differently on purpose.
    private static bool NamesASide(Settings settings, ProcessorDefinition definition) => NamesASide(settings, definition.Parameters);

    private static bool NamesASide(Settings settings, IReadOnlyList<Parameter> parameters) =>
        parameters.OfType<ChoiceParameter>().Any(p => settings[p] is "left" or "right")
        || parameters.OfType<ListParameter>().Any(p => settings[p].Any(item => NamesASide(item.Settings, item.Kind.Parameters)));

    private static void ProcessBlocks(IProcessor processor, double[][] buffer, double[][] key)
    {
        foreach (var frames in (ReadOnlySpan<int>)[480, 7, 0, 64, 480, 1])
        {
            processor.Process(new AudioBlock(buffer, 0, frames), new AudioBlock(key, 0, frames));
        }
    }

    private static void AssertSame(double[][] expected, double[][] actual, string name)
    {
        for (var channel = 0; channel < expected.Length; channel++)
        {
            var differs = Enumerable.Range(0, expected[channel].Length)
                .FirstOrDefault(i => BitConverter.DoubleToInt64Bits(expected[channel][i]) != BitConverter.DoubleToInt64Bits(actual[channel][i]), -1);
            Assert.True(differs < 0, $"{name}: channel {channel} differs first at frame {differs}");
        }
    }

    private static void AssertFinite(double[][] output, string name) =>
        Assert.All(output, channel => Assert.True(Array.TrueForAll(channel, double.IsFinite), name));
}
