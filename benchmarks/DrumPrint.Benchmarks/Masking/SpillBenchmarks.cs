using BenchmarkDotNet.Attributes;
using DrumPrint.Benchmarks.Dynamics;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Benchmarks.Masking;

/// <summary>Time for one frame of all channels: spill with a key of one side or two, and at rest.</summary>
public class SpillBenchmarks
{
    private Playing _playing = null!;
    private double[][] _key = null!;
    private IProcessor _one = null!;
    private IProcessor _two = null!;
    private IProcessor _off = null!;

    [Params(1, 2)]
    public int Channels { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        _playing = new Playing(Channels);
        _key = [.. new Playing(2).Fresh().Select(c => c.Select(x => 3 * x).Reverse().ToArray())];
        _one = Make(1, 12);
        _two = Make(2, 12);
        _off = Make(1, 0);
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Playing.Frames)]
    public void One_key() => Through(_one, 1);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Two_keys() => Through(_two, 2);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Nothing_to_turn_down() => Through(_off, 1);

    private IProcessor Make(int keys, double amountDb) => Spill.Definition.Create(
        Spill.Definition.With(Spill.Amount.To(amountDb)).Settings,
        new ProcessorContext(new AudioFormat(48000, Channels), Playing.Frames, keys, new Dictionary<string, Impulse>()));

    private void Through(IProcessor processor, int keys) => WholeSignal.Process(processor, _playing.Fresh(), _key[..keys], 480);
}
