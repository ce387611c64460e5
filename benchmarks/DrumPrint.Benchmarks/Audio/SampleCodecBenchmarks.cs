using System.Buffers.Binary;
using BenchmarkDotNet.Attributes;
using DrumPrint.Audio;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Benchmarks.Audio;

/// <summary>Stored samples to 64-bit ones and back, against plain loops. No file takes part.</summary>
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
    public void Decode_in_a_plain_loop()
    {
        for (var n = 0; n < Samples; n++)
        {
            _samples[n] = Encoding switch
            {
                SampleEncoding.Pcm16 => BinaryPrimitives.ReadInt16LittleEndian(_bytes.AsSpan(2 * n)) * (1.0 / (1 << 15)),
                SampleEncoding.Pcm24 => (_bytes[3 * n] | (_bytes[(3 * n) + 1] << 8) | ((sbyte)_bytes[(3 * n) + 2] << 16)) * (1.0 / (1 << 23)),
                SampleEncoding.Pcm32 => BinaryPrimitives.ReadInt32LittleEndian(_bytes.AsSpan(4 * n)) * (1.0 / (1L << 31)),
                _ => BinaryPrimitives.ReadSingleLittleEndian(_bytes.AsSpan(4 * n)),
            };
        }
    }

    [Benchmark(OperationsPerInvoke = Samples)]
    public void Decode() => SampleDecoder.Decode(_bytes, Encoding, _samples);

    [Benchmark(OperationsPerInvoke = Samples)]
    public void Encode() => SampleEncoder.Encode(_samples, Encoding, _bytes);

    [Benchmark(OperationsPerInvoke = Samples)]
    public int Look_for_what_is_not_finite() => DrumPrint.Dsp.Numerics.NotFinite.IndexIn(_samples);
}
