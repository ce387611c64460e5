using BenchmarkDotNet.Attributes;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.WordLength;

namespace DrumPrint.Benchmarks.Audio;

/// <summary>Rounding to a word length, per sample.</summary>
public class QuantizerBenchmarks
{
    private const int Frames = 1024;

    private readonly double[][] _block = [new double[Frames], new double[Frames]];
    private Quantizer? _quantizer;

    [Params(Dither.None, Dither.Tpdf)]
    public Dither Dither { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        var noise = new CounterNoise(1);
        for (var n = 0; n < Frames; n++)
        {
            _block[0][n] = noise.Bipolar(2 * n);
            _block[1][n] = noise.Bipolar((2 * n) + 1);
        }

        _quantizer = new Quantizer(16, Dither, noise, 2);
    }

    [Benchmark(OperationsPerInvoke = 2 * Frames)]
    public void Quantize() => _quantizer!.Process(new AudioBlock(_block, 0, Frames));
}
