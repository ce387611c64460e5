using BenchmarkDotNet.Attributes;
using DrumPrint.Audio;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Benchmarks.Audio;

/// <summary>Stored samples to 64-bit ones and back, against one sample at a time. No file takes part.</summary>
public class SampleCodecBenchmarks
{
    private const int Samples = 4096;

    private readonly double[] _samples = new double[Samples];
    private byte[] _bytes = [];

    [Params(SampleEncoding.Pcm16, SampleEncoding.Pcm24, SampleEncoding.Pcm32, SampleEncoding.Float32)]
    public SampleEncoding Encoding { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        var noise = new CounterNoise(1);
        for (var n = 0; n < Samples; n++)
        {
            _samples[n] = noise.Bipolar(n);
        }

        _bytes = new byte[Samples * Encoding.Bytes()];
        Encode();
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Samples)]
    public void Decode_one_by_one()
    {
        for (var n = 0; n < Samples; n++)
        {
            SampleDecoder.Decode(_bytes.AsSpan(n * Encoding.Bytes(), Encoding.Bytes()), Encoding, _samples.AsSpan(n, 1));
        }
    }

    [Benchmark(OperationsPerInvoke = Samples)]
    public void Decode() => SampleDecoder.Decode(_bytes, Encoding, _samples);

    [Benchmark(OperationsPerInvoke = Samples)]
    public void Encode_one_by_one()
    {
        for (var n = 0; n < Samples; n++)
        {
            SampleEncoder.Encode(_samples.AsSpan(n, 1), Encoding, _bytes.AsSpan(n * Encoding.Bytes(), Encoding.Bytes()));
        }
    }

    [Benchmark(OperationsPerInvoke = Samples)]
    public void Encode() => SampleEncoder.Encode(_samples, Encoding, _bytes);

    [Benchmark(OperationsPerInvoke = Samples)]
    public int Look_for_what_is_not_finite() => SampleEncoder.IndexOfNotFinite(_samples);
}
