using BenchmarkDotNet.Attributes;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Resampling;
using NWaves.Operations;
using NWaves.Signals;

namespace DrumPrint.Benchmarks.Spectral;

/// <summary>One second of a mono signal to another rate.</summary>
[MemoryDiagnoser]
public class RateConverterBenchmarks
{
    private double[] _signal = [];
    private double[] _output = [];
    private RateConverter _converter = null!;
    private DiscreteSignal _single = null!;

    [Params(44100, 48000, 44101)]
    public int FromHz { get; set; }

    [Params(96000)]
    public int ToHz { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        var noise = new CounterNoise(1);
        _signal = [.. Enumerable.Range(0, FromHz).Select(n => noise.Bipolar(n))];
        _converter = new RateConverter(FromHz, ToHz);
        _output = new double[_converter.RoomFor(FromHz)];
        _single = new DiscreteSignal(FromHz, Array.ConvertAll(_signal, x => (float)x));
    }

    [Benchmark(Baseline = true)]
    public int DrumPrint64Bit() => _converter.Process(_signal, _output);

    [Benchmark]
    public int NWaves32Bit() => new Resampler().Resample(_single, ToHz).Length;
}
