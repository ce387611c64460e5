using BenchmarkDotNet.Attributes;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Benchmarks.Spectral;

/// <summary>One second of stereo through a true-stereo impulse of 2.6 s at 48 kHz. The block convolvers of the general
/// libraries run against it, each at the block length it likes best. The ratio says how many times longer they
/// take.</summary>
[MemoryDiagnoser]
public class ConvolutionBenchmarks
{
    private const int Rate = 48000;
    private const int ImpulseFrames = 124800;

    // Every convolver works off a whole number of its blocks per call, so that no call falls between two.
    private const int OursFrames = 65536;
    private const int NWavesFftLength = 524288;
    private const int NWavesFrames = NWavesFftLength - ImpulseFrames + 1;
    private const int NAudioBlock = 4096;
    private const int NAudioFrames = NAudioBlock * 12;

    private double[][] _signal = [];
    private double[][] _buffer = [];
    private IProcessor _ours = null!;
    private NWaves.Operations.Convolution.OlsBlockConvolver64[] _nwavesSave = [];
    private NWaves.Operations.Convolution.OlaBlockConvolver64[] _nwavesAdd = [];
    private NAudio.Dsp.PartitionedConvolver[] _naudio = [];

    [GlobalSetup]
    public void Setup()
    {
        var noise = new CounterNoise(1);
        double[] Noise(int frames, long from, double decayFrames) =>
            [.. Enumerable.Range(0, frames).Select(n => noise.Bipolar(from + n) * Elementary.Exp(-n / decayFrames))];
        var impulse = Enumerable.Range(0, 4).Select(c => Noise(ImpulseFrames, c * 1000000L, 13000)).ToArray();
        _signal = [Noise(NWavesFrames, 5000000, 1e12), Noise(NWavesFrames, 6000000, 1e12)];
        _buffer = [new double[OursFrames], new double[OursFrames]];
        var settings = Settings.Of(Convolve.Definition.Parameters, (Convolve.ImpulseName, "chamber"));
        var impulses = new Dictionary<string, Impulse> { ["chamber"] = new("chamber", Rate, ImpulseLayout.TrueStereo, impulse) };
        _ours = Convolve.Definition.Create(settings, new ProcessorContext(new AudioFormat(Rate, 2), 0, 0, impulses));
        _nwavesSave = Array.ConvertAll(impulse, h => new NWaves.Operations.Convolution.OlsBlockConvolver64(h, NWavesFftLength));
        _nwavesAdd = Array.ConvertAll(impulse, h => new NWaves.Operations.Convolution.OlaBlockConvolver64(h, NWavesFftLength));
        _naudio = Array.ConvertAll(impulse, h => new NAudio.Dsp.PartitionedConvolver(Array.ConvertAll(h, x => (float)x), NAudioBlock));
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = OursFrames)]
    public void DrumPrint64Bit()
    {
        for (var channel = 0; channel < 2; channel++)
        {
            _signal[channel].AsSpan(0, OursFrames).CopyTo(_buffer[channel]);
        }

        _ours.Process(new AudioBlock(_buffer, 0, OursFrames), AudioBlock.None);
    }

    [Benchmark(OperationsPerInvoke = NWavesFrames)]
    public double NWaves64BitOverlapSave()
    {
        var sum = 0.0;
        for (var n = 0; n < NWavesFrames; n++)
        {
            sum += _nwavesSave[0].Process(_signal[0][n]) + _nwavesSave[2].Process(_signal[1][n]);
            sum += _nwavesSave[1].Process(_signal[0][n]) + _nwavesSave[3].Process(_signal[1][n]);
        }

        return sum;
    }

    [Benchmark(OperationsPerInvoke = NWavesFrames)]
    public double NWaves64BitOverlapAdd()
    {
        var sum = 0.0;
        for (var n = 0; n < NWavesFrames; n++)
        {
            sum += _nwavesAdd[0].Process(_signal[0][n]) + _nwavesAdd[2].Process(_signal[1][n]);
            sum += _nwavesAdd[1].Process(_signal[0][n]) + _nwavesAdd[3].Process(_signal[1][n]);
        }

        return sum;
    }

    [Benchmark(OperationsPerInvoke = NAudioFrames)]
    public double NAudio32Bit()
    {
        var sum = 0.0;
        for (var n = 0; n < NAudioFrames; n++)
        {
            sum += _naudio[0].Process((float)_signal[0][n]) + _naudio[2].Process((float)_signal[1][n]);
            sum += _naudio[1].Process((float)_signal[0][n]) + _naudio[3].Process((float)_signal[1][n]);
        }

        return sum;
    }
}
