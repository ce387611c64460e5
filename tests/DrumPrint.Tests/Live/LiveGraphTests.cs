using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Files;
using DrumPrint.Live;
using DrumPrint.Rendering;

namespace DrumPrint.Tests.Live;

[Collection(PrintedDemo.Group)]
public sealed class LiveGraphTests(PrintedDemo demo)
{
    // The bar of the bench: what is heard after a jump is the print to −100 dBFS.
    private const double SeekBoundDbfs = -100;

    // A sum of a few hundred roundings of 2⁻⁵³, and the print's own rounding to 24 bits of mantissa.
    private const double RoundingDbfs = -140;

    private const int Blocks = 100;

    [Fact]
    public void From_the_start_every_print_differs_by_rounding_only() => Same(Graph(demo.Chain, 0), 0, RoundingDbfs);

    [Theory]
    [InlineData(7.31)]
    [InlineData(12.02)]
    [InlineData(16.5)]
    public void After_a_jump_every_print_is_what_the_file_holds(double seconds)
    {
        var block = (long)(seconds * LiveGraph.BlocksPerSecond);

        Same(Graph(demo.Chain, block), block, SeekBoundDbfs);
    }

    [Fact]
    public void A_graph_that_takes_over_what_did_not_change_sounds_like_one_that_was_made_anew()
    {
        var other = Louder(demo.Chain, "kick");
        var running = Graph(demo.Chain, 700);
        for (var block = 700; block < 1200; block++)
        {
            running.Advance(block);
        }

        var part = LiveGraph.Build(Session(other), Settings(), running, 1200, new BlockPool(480));
        var whole = LiveGraph.Build(Session(other), Settings(), null, 1200, new BlockPool(480));

        Assert.InRange(part.NewNodes, 1, whole.NewNodes / 2);
        var difference = 0.0;
        for (var block = 1200; block < 1200 + Blocks; block++)
        {
            part.Advance(block);
            whole.Advance(block);
            difference = Math.Max(difference, Largest(part.Heard[0], whole.Heard[0]));
        }

        Assert.True(Decibels.FromGain(difference) < SeekBoundDbfs, $"{Decibels.FromGain(difference):0.0} dBFS");
    }

    [Fact]
    public void Enough_of_the_past_is_kept_to_make_no_more_anew_than_what_changed()
    {
        const int At = 1300;
        var running = Graph(demo.Chain, 300);
        for (var block = 300; block < At; block++)
        {
            running.Advance(block);
        }

        var before = Session(demo.Chain);
        foreach (var bus in demo.Chain.Buses)
        {
            var session = Session(Louder(demo.Chain, bus.Name));
            var changed = demo.Chain.Buses.Select(b => b.Name).Where(b => before.KeyOf(b) != session.KeyOf(b)).Append("").ToList();

            var part = LiveGraph.Build(session, Settings(), running, At, new BlockPool(480));

            Assert.Contains(bus.Name, changed);
            Assert.All(part.Stages, stage => Assert.Contains(stage.Bus, changed));
        }
    }

    [Fact]
    public void The_past_takes_less_than_half_of_what_eight_seconds_of_everything_would()
    {
        var pool = new BlockPool(480);
        var graph = LiveGraph.Build(Session(demo.Chain), Settings(), null, 300, pool);
        for (var block = 300; block < 1300; block++)
        {
            graph.Advance(block);
        }

        var channels = demo.Chain.Tracks.Count + (2 * demo.Chain.Buses.Count);
        Assert.InRange(pool.Made, 1, channels * 8 * LiveGraph.BlocksPerSecond / 2);
    }

    [Theory]
    [InlineData(44100, 60)]
    [InlineData(48000, 50)]
    [InlineData(48000, 60)]
    [InlineData(88200, 50)]
    [InlineData(96000, 60)]
    [InlineData(176400, 60)]
    [InlineData(192000, 60)]
    public void The_bench_begins_where_a_step_of_a_processor_begins(int rateHz, double freqHz)
    {
        var blockFrames = rateHz / LiveGraph.BlocksPerSecond;
        var context = new ProcessorContext(new AudioFormat(rateHz, 1), 0, 1, new Dictionary<string, Impulse>());
        IProcessor[] processors =
        [
            Spill.Definition.Create(Spill.Definition.With().Settings, context),
            Hum.Definition.Create(Hum.Definition.With(Hum.Freq.To(freqHz)).Settings, context),
        ];

        foreach (var step in processors.Select(p => p.StepFrames))
        {
            var blocks = Beginnings.StepBlocks(step, blockFrames);

            Assert.Equal(0, blocks * blockFrames % step);
            Assert.All(Enumerable.Range(1, (int)blocks - 1), fewer => Assert.NotEqual(0, fewer * blockFrames % step));
        }
    }

    [Fact]
    public void The_trim_of_the_last_print_is_heard()
    {
        var plain = Graph(demo.Chain, 900);
        var trimmed = LiveGraph.Build(Session(demo.Chain), Settings() with { TrimDb = -6 }, null, 900, new BlockPool(480));

        plain.Advance(900);
        trimmed.Advance(900);

        Assert.Equal(Decibels.ToGain(-6) * plain.Heard[0][240], trimmed.Heard[0][240], 12);
    }

    private void Same(LiveGraph graph, long from, double boundDbfs)
    {
        var worst = demo.Chain.Prints.ToDictionary(p => p.Number, _ => 0.0);
        var heard = false;
        for (var block = from; block < from + Blocks; block++)
        {
            graph.Advance(block);
            foreach (var print in demo.Chain.Prints)
            {
                var live = graph.Print(print.Number);
                var file = demo.Print(print.Number);
                Assert.Equal(file.Length, live.Channels);
                for (var channel = 0; channel < live.Channels; channel++)
                {
                    worst[print.Number] = Math.Max(worst[print.Number], Largest(live[channel], file[channel].AsSpan((int)block * graph.BlockFrames, graph.BlockFrames)));
                    heard |= live[channel].IndexOfAnyExcept(0) >= 0;
                }
            }
        }

        var over = worst.Where(w => Decibels.FromGain(w.Value) > boundDbfs).Select(w => $"print {w.Key}: {Decibels.FromGain(w.Value):0.0} dBFS").ToList();
        Assert.True(over.Count == 0, string.Join(", ", over));
        Assert.True(heard || from == 0);
    }

    private static double Largest(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var largest = 0.0;
        for (var n = 0; n < a.Length; n++)
        {
            largest = Math.Max(largest, Math.Abs(a[n] - b[n]));
        }

        return largest;
    }

    private static Chain Louder(Chain chain, string bus) => chain with
    {
        Buses = [.. chain.Buses.Select(b => b.Name == bus ? b with { Feeds = [b.Feeds[0] with { LevelDb = b.Feeds[0].LevelDb + 3 }, .. b.Feeds.Skip(1)] } : b)],
    };

    private static LiveGraph Graph(Chain chain, long block) => LiveGraph.Build(Session(chain), Settings(), null, block, new BlockPool(480));

    private static LiveSession Session(Chain chain) => LiveSession.Of(chain, ReadPolicy.Default, null);

    private static HeardSettings Settings() => new(new Strips(), false, 0);
}
