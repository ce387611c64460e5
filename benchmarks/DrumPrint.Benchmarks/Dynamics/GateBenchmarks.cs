using BenchmarkDotNet.Attributes;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;
using NAudio.Effects;
using NAudio.Wave;

namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>Time for one frame of all channels: the project's gate and ducker, a plain gate, and the library's (32-bit).</summary>
public class GateBenchmarks
{
    private Playing _playing = null!;
    private IProcessor _gate = null!;
    private IProcessor _ahead = null!;
    private IProcessor _keyFiltered = null!;
    private IProcessor _expand = null!;
    private IProcessor _duck = null!;
    private PlainGate _plain = null!;
    private PlainGate _plainAhead = null!;
    private PlainGate _plainKeyFiltered = null!;
    private GateEffect _library = null!;

    [Params(1, 2)]
    public int Channels { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        _playing = new Playing(Channels);
        _gate = Playing.Make(Gate.Definition, Channels);
        _ahead = Playing.Make(Gate.Definition, Channels, (Gate.Ahead, 1.0));
        _keyFiltered = Playing.Make(Gate.Definition, Channels, (Gate.Ahead, 1.0), (Gate.KeyHighPass, 100.0));
        _expand = Playing.Make(Gate.Definition, Channels, (Gate.Action, "expand"));
        _duck = Playing.Make(Duck.Definition, Channels);
        _plain = new PlainGate(0);
        _plainAhead = new PlainGate(48);
        _plainKeyFiltered = new PlainGate(48, 100);
        _library = new GateEffect { ThresholdDb = -36, HysteresisDb = 6, RangeDb = -60, AttackMs = 0.3f, HoldMs = 60, ReleaseMs = 150 };
        _library.Configure(WaveFormat.CreateIeeeFloatWaveFormat(48000, Channels));
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Playing.Frames)]
    public void Plain_gate() => _plain.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Gate_alone() => _playing.Through(_gate);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Library_gate() => _playing.Through(_library);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Plain_look_ahead() => _plainAhead.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Look_ahead() => _playing.Through(_ahead);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Plain_key_filtered() => _plainKeyFiltered.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Key_filtered() => _playing.Through(_keyFiltered);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Expand() => _playing.Through(_expand);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Duck_alone() => _playing.Through(_duck);
}
