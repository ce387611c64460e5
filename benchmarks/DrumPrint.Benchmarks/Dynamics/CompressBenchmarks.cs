using BenchmarkDotNet.Attributes;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;
using NAudio.Effects;
using NAudio.Wave;

namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>Time for one frame of all channels. Compared are the project's compressor, a plain one at the frame rate, a plain
/// one at eight times it, and the library's (32-bit, at the frame rate). The one at eight times folds about as little as the
/// project's.</summary>
public class CompressBenchmarks
{
    private Playing _playing = null!;
    private IProcessor _forward = null!;
    private IProcessor _forwardRms = null!;
    private IProcessor _feedback = null!;
    private IProcessor _halfLinked = null!;
    private IProcessor _keyFiltered = null!;
    private PlainCompressor _plainForward = null!;
    private PlainCompressor _plainRms = null!;
    private PlainCompressor _plainFeedback = null!;
    private PlainCompressor _plainKeyFiltered = null!;
    private PlainOversampledCompressor _plainOversampled = null!;
    private CompressorEffect _library = null!;

    [Params(1, 2)]
    public int Channels { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        _playing = new Playing(Channels);
        _forward = Playing.Make(Compress.Definition, Channels);
        _forwardRms = Playing.Make(Compress.Definition, Channels, (Compress.Detector, "rms"));
        _feedback = Playing.Make(Compress.Definition, Channels, (Compress.Topology, "feedback"));
        _halfLinked = Playing.Make(Compress.Definition, Channels, (Compress.Link, 50.0));
        _keyFiltered = Playing.Make(Compress.Definition, Channels, (Compress.KeyHighPass, 100.0));
        _plainForward = new PlainCompressor();
        _plainOversampled = new PlainOversampledCompressor(Channels);
        _plainRms = new PlainCompressor(isRms: true);
        _plainFeedback = new PlainCompressor(isFeedback: true);
        _plainKeyFiltered = new PlainCompressor(keyHighPassHz: 100);
        _library = new CompressorEffect { ThresholdDb = -20, Ratio = 4, KneeDb = 6, AttackMs = 10, ReleaseMs = 120 };
        _library.Configure(WaveFormat.CreateIeeeFloatWaveFormat(48000, Channels));
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Playing.Frames)]
    public void Plain_forward() => _plainForward.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Plain_forward_at_eight_times_the_rate() => _plainOversampled.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Forward() => _playing.Through(_forward);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Library_forward() => _playing.Through(_library);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Plain_rms() => _plainRms.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Forward_rms() => _playing.Through(_forwardRms);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Plain_feedback() => _plainFeedback.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Feedback() => _playing.Through(_feedback);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Half_linked() => _playing.Through(_halfLinked);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Plain_key_filtered() => _plainKeyFiltered.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Key_filtered() => _playing.Through(_keyFiltered);
}
