using BenchmarkDotNet.Attributes;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;
using MathNet.Numerics.IntegralTransforms;

namespace DrumPrint.Benchmarks.Spectral;

/// <summary>Forward transform of a real signal, 64-bit, against the two general libraries; the ratio says how many times longer they take.</summary>
[MemoryDiagnoser]
public class FftBenchmarks
{
    private double[] _signal = [];
    private double[] _re = [];
    private double[] _im = [];
    private double[] _packed = [];
    private RealFft _ours = null!;
    private NWaves.Transforms.RealFft64 _nwaves = null!;

    [Params(4096, 16384, 65536)]
    public int Length { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        var noise = new CounterNoise(1);
        _signal = [.. Enumerable.Range(0, Length).Select(n => noise.Bipolar(n))];
        (_re, _im) = (new double[Length], new double[Length]);
        _packed = new double[Length + 2];
        _ours = new RealFft(Length);
        _nwaves = new NWaves.Transforms.RealFft64(Length);
    }

    [Benchmark(Baseline = true)]
    public void DrumPrint() => _ours.Forward(_signal, _re, _im);

    [Benchmark]
    public void NWaves() => _nwaves.Direct(_signal, _re, _im);

    [Benchmark]
    public void MathNet()
    {
        _signal.CopyTo(_packed, 0);
        Fourier.ForwardReal(_packed, Length, FourierOptions.NoScaling);
    }
}
