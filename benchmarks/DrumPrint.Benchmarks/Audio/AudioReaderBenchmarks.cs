using System.Security.Cryptography;
using BenchmarkDotNet.Attributes;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using NAudio.Wave;

namespace DrumPrint.Benchmarks.Audio;

/// <summary>Reading a file that the operating system holds in memory. Here that gives 64-bit samples and a hash. NAudio
/// gives 32-bit samples and no hash: it has no other.</summary>
[MemoryDiagnoser]
public class AudioReaderBenchmarks
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
        _block = [.. Enumerable.Range(0, Channels).Select(_ => new double[BlockFrames])];
        using var writer = WaveWriter.Create(_path, new AudioFormat(48000, Channels), Encoding, null, Frames);
        for (var frame = 0; frame < Frames; frame += BlockFrames)
        {
            writer.Write(new AudioBlock(_block, 0, Math.Min(BlockFrames, Frames - frame)));
        }

        writer.Finish(Frames);
        writer.Publish();
    }

    [GlobalCleanup]
    public void Cleanup() => File.Delete(_path);

    [Benchmark(Baseline = true)]
    public int NAudio_to_floats()
    {
        using var reader = new WaveFileReader(_path);
        var samples = reader.ToSampleProvider();
        var sum = 0;
        for (var count = -1; count != 0; sum += count)
        {
            count = samples.Read(_floats.AsSpan(0, BlockFrames * Channels));
        }

        return sum;
    }

    [Benchmark]
    public string Read_and_hash()
    {
        using var reader = AudioReader.Open(_path);
        while (reader.Read(new AudioBlock(_block, 0, BlockFrames)) > 0)
        {
        }

        return reader.AudioSha256;
    }

    [Benchmark]
    public string Skip_and_hash()
    {
        using var reader = AudioReader.Open(_path);
        reader.Skip(Frames);
        return reader.AudioSha256;
    }

    /// <summary>The least any reader that hashes can take.</summary>
    [Benchmark]
    public byte[] Hash_alone()
    {
        using var file = File.OpenRead(_path);
        return SHA256.HashData(file);
    }
}
