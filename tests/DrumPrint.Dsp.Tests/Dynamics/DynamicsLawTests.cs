using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>What holds for every dynamics processor in every mode: bits do not depend on blocks, nothing is allocated, sides
/// are alike.</summary>
public sealed class DynamicsLawTests
{
    private const int Frames = 20000;

    public static TheoryData<string, bool> Cases()
    {
        var cases = new TheoryData<string, bool>();
        foreach (var name in Modes.Keys)
        {
            cases.Add(name, false);
            cases.Add(name, true);
        }

        return cases;
    }

    private static Dictionary<string, (ProcessorDefinition Definition, (Parameter, object)[] Values)> Modes { get; } = new()
    {
        ["forward"] = (Compress.Definition, [(Compress.KeyHighPass, 100.0)]),
        ["forward, half link"] = (Compress.Definition, [(Compress.Link, 50.0), (Compress.Mix, 50.0)]),
        ["forward, rms"] = (Compress.Definition, [(Compress.Detector, "rms"), (Compress.Link, 0.0)]),
        ["feedback"] = (Compress.Definition, [(Compress.Topology, "feedback"), (Compress.Ratio, 20.0)]),
        ["feedback, half link"] = (Compress.Definition, [(Compress.Topology, "feedback"), (Compress.Link, 50.0), (Compress.Detector, "rms")]),
        ["gate"] = (Gate.Definition, [(Gate.Ahead, 1.3), (Gate.Hold, 5.0), (Gate.KeyHighPass, 100.0), (Gate.KeyLowPass, 3000.0)]),
        ["gate without hold"] = (Gate.Definition, [(Gate.Hold, 0.0), (Gate.Release, 3.0)]),
        ["gate, long look-ahead"] = (Gate.Definition, [(Gate.Ahead, 20.0)]),
        ["expand"] = (Gate.Definition, [(Gate.Action, "expand"), (Gate.Ahead, 2.0), (Gate.Hold, 2.0), (Gate.Release, 20.0)]),
        ["duck"] = (Duck.Definition, [(Duck.Release, 30.0)]),
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Where_blocks_are_cut_never_changes_a_bit(string name, bool hasKey)
    {
        var whole = Output(name, hasKey, Frames);

        foreach (var blockFrames in new[] { 1, 7, 64, 255, 257, 480 })
        {
            Assert.Equal(whole, Output(name, hasKey, blockFrames));
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Sides_swapped_in_are_sides_swapped_out(string name, bool hasKey)
    {
        var straight = Output(name, hasKey, 480);
        var swapped = Output(name, hasKey, 480, isSwapped: true);

        Assert.Equal(straight[0], swapped[1]);
        Assert.Equal(straight[1], swapped[0]);
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Processing_allocates_nothing(string name, bool hasKey)
    {
        var (definition, values) = Modes[name];
        var input = Input();
        var processor = definition.Create(Settings.Of(definition.Parameters, values), Context(hasKey));

        Assert.Equal(0, Allocations.Of(() => Process(processor, input, hasKey, Frames)));
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Silence_gives_silence_and_ends_in_normal_numbers(string name, bool hasKey)
    {
        var (definition, values) = Modes[name];
        var settings = Settings.Of(definition.Parameters, values);
        double[][] input = [Signals.Noise(2000, 1), Signals.Noise(2000, 2)];

        var output = Run.Through(definition, settings, input, extraFrames: 20000, key: hasKey ? input : null);

        Assert.All(output, side => Assert.All(side[3000..], y => Assert.Equal(0, y)));
        Assert.All(output, side => Assert.All(side, y => Assert.False(double.IsSubnormal(y))));
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void What_is_not_a_number_passes_and_leaves_nothing_behind(string name, bool hasKey)
    {
        const int FilterFrames = 150;
        var (definition, values) = Modes[name];
        double[][] input = [[0, double.NaN, 1, double.PositiveInfinity, .. new double[2996]], [double.NaN, 1, .. new double[2998]]];

        var output = Run.Through(definition, Settings.Of(definition.Parameters, values), input, key: hasKey ? input : null);

        var latency = definition.Create(Settings.Of(definition.Parameters, values), Context(hasKey)).LatencyFrames;
        Assert.Contains(output, side => Array.Exists(side, double.IsNaN));
        Assert.All(output, side => Assert.All(side[(int)(latency + FilterFrames)..], y => Assert.Equal(0, y)));
    }

    private static double[][] Output(string name, bool hasKey, int blockFrames, bool isSwapped = false)
    {
        var (definition, values) = Modes[name];
        var input = Input();
        var key = Key();
        if (isSwapped)
        {
            Array.Reverse(input);
            Array.Reverse(key);
        }

        return Run.Through(definition, Settings.Of(definition.Parameters, values), input, blockFrames, key: hasKey ? key : null);
    }

    private static void Process(IProcessor processor, double[][] input, bool hasKey, int frames) =>
        processor.Process(new AudioBlock(input, 0, frames), hasKey ? new AudioBlock(input, 0, frames) : AudioBlock.None);

    private static ProcessorContext Context(bool hasKey) =>
        new(new AudioFormat(Run.SampleRate, 2), Frames, hasKey ? 2 : 0, new Dictionary<string, Impulse>());

    private static double[][] Input() => [Signals.Hits(Frames, 5000, 700, 1), Signals.Hits(Frames, 7000, 500, 2, 0.5)];

    private static double[][] Key() => [Signals.Hits(Frames, 4000, 300, 3), Signals.Hits(Frames, 3000, 900, 4)];
}
