using BenchmarkDotNet.Attributes;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>Time for one frame of all channels: limiter, clipper and hits, beside plain forms that read the samples alone, and beside <c>saturate</c>.</summary>
public class CeilingBenchmarks
{
    private Playing _playing = null!;
    private IProcessor _limit = null!;
    private IProcessor _limitIdle = null!;
    private IProcessor _clip = null!;
    private IProcessor _saturate = null!;
    private IProcessor _hits = null!;
    private PlainLimiter _plainLimiter = null!;
    private PlainHits _plainHits = null!;

    [Params(1, 2)]
    public int Channels { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        _playing = new Playing(Channels);
        _limit = Playing.Make(Limit.Definition, Channels, (Limit.Top, -6.0));
        _limitIdle = Playing.Make(Limit.Definition, Channels, (Limit.Top, 0.0));
        _clip = Playing.Make(Clip.Definition, Channels, (Clip.Top, -6.0));
        _saturate = Playing.Make(Saturate.Definition, Channels, (Saturate.Shape, "hard"));
        _hits = Playing.Make(Hits.Definition, Channels, (Hits.Begin, 6.0), (Hits.Body, -6.0));
        _plainLimiter = new PlainLimiter(96, 0.5);
        _plainHits = new PlainHits(6, -6);
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Playing.Frames)]
    public void Plain_limiter_of_samples() => _plainLimiter.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Limit_at_work() => _playing.Through(_limit);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Limit_with_little_to_do() => _playing.Through(_limitIdle);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Clip_at_work() => _playing.Through(_clip);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Saturate_hard() => _playing.Through(_saturate);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Plain_hits_of_samples() => _plainHits.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Hits_at_work() => _playing.Through(_hits);
}
