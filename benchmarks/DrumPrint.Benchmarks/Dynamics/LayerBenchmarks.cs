using BenchmarkDotNet.Attributes;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>Time for one frame of two channels: a sound under ten hits a second, beside a plain detector that reads the samples alone, and compressors whose times move.</summary>
public class LayerBenchmarks
{
    private readonly Playing _playing = new(2);
    private readonly PlainHits _plain = new(6, -6);
    private readonly IProcessor _layer = Make(Layer.Definition, Layer.Sound.To("sound"));
    private readonly IProcessor _mixed = Make(Layer.Definition, Layer.Sound.To("sound"), Layer.Mix.To(50));
    private readonly IProcessor _compress = Playing.Make(Compress.Definition, 2);
    private readonly IProcessor _crest = Playing.Make(Compress.Definition, 2, (Compress.Times, "by_crest"));
    private readonly IProcessor _deep = Playing.Make(Compress.Definition, 2, (Compress.Deep, 10.0));

    [Benchmark(Baseline = true, OperationsPerInvoke = Playing.Frames)]
    public void Plain_envelopes_of_samples() => _plain.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Sound_under_ten_hits_a_second() => _playing.Through(_layer);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void The_same_under_the_track() => _playing.Through(_mixed);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Compress_as_set() => _playing.Through(_compress);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Compress_by_crest() => _playing.Through(_crest);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Compress_by_depth() => _playing.Through(_deep);

    private static IProcessor Make(ProcessorDefinition definition, params (Parameter, object)[] values)
    {
        var source = new Playing(1).Fresh()[0];
        var sound = new Impulse("sound", 48000, ImpulseLayout.Mono, [source[..4800]]);
        return definition.Create(
            Settings.Of(definition.Parameters, values),
            new ProcessorContext(new AudioFormat(48000, 2), Playing.Frames, 0, new Dictionary<string, Impulse> { ["sound"] = sound }));
    }
}
