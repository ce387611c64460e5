using BenchmarkDotNet.Attributes;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using NAudio.Wave;

namespace DrumPrint.Benchmarks.Audio;

/// <summary>Writing a file: from 64-bit samples, hashed and flushed to the disk here; from 32-bit samples, neither hashed
/// nor flushed with NAudio.</summary>
[MemoryDiagnoser]
public class WaveWriterBenchmarks
{
    private const int Frames = 10_000_000;
    private const int BlockFrames = 1024;

    private readonly string _path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName());
    private readonly float[] _floats = new float[2 * BlockFrames];
    private double[][] _block = [];

    [Params(SampleEncoding.Pcm16, SampleEncoding.Pcm24, SampleEncoding.Float32)]
    public SampleEncoding Encoding { get; set; }

    [Params(1, 2)]
    public int Channels { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        var noise = new CounterNoise(1);
        _block = [.. Enumerable.Range(0, Channels).Select(c => Enumerable.Range(0, BlockFrames).Select(n => noise.Bipolar((n * Channels) + c)).ToArray())];
        for (var n = 0; n < _floats.Length; n++)
        {
            _floats[n] = (float)noise.Bipolar(n);
        }
    }

    [GlobalCleanup]
    public void Cleanup() => File.Delete(_path);

    [Benchmark(Baseline = true)]
    public long NAudio_from_floats()
    {
        var format = Encoding.IsFloat() ? WaveFormat.CreateIeeeFloatWaveFormat(48000, Channels) : new WaveFormat(48000, Encoding.Bits(), Channels);
        using var writer = new WaveFileWriter(_path, format);
        for (var frame = 0; frame < Frames; frame += BlockFrames)
        {
            writer.WriteSamples(_floats, 0, Math.Min(BlockFrames, Frames - frame) * Channels);
        }

        return writer.Length;
    }

    [Benchmark]
    public string Write_hash_and_flush()
    {
        using var writer = Written();
        writer.Finish(Frames);
        return writer.AudioSha256;
    }

    /// <summary>Without waiting for the disk.</summary>
    [Benchmark]
    public long Write_and_hash()
    {
        using var writer = Written();
        return writer.FramesWritten;
    }

    private WaveWriter Written()
    {
        var writer = WaveWriter.Create(_path, new AudioFormat(48000, Channels), Encoding, null, Frames);
        for (var frame = 0; frame < Frames; frame += BlockFrames)
        {
            writer.Write(new AudioBlock(_block, 0, Math.Min(BlockFrames, Frames - frame)));
        }

        return writer;
    }
}
