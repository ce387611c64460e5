using BenchmarkDotNet.Attributes;
using DrumPrint.Benchmarks.Dynamics;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Benchmarks.Filters;

/// <summary>Time for one frame of two channels: bands in which nothing happens, and bands that move.</summary>
public class BandBenchmarks
{
    private readonly Playing _playing = new(2);
    private readonly PlainAllPass _plain = new(400, 0.7071, 2);
    private readonly IProcessor _two = Playing.Make(Bands.Definition, 2, Bands.In.To());
    private readonly IProcessor _four = Playing.Make(Bands.Definition, 2, Bands.In.To(), (Bands.Split2, 1000.0), (Bands.Split3, 6000.0));
    private readonly IProcessor _steep = Playing.Make(Bands.Definition, 2, Bands.In.To(), (Bands.Split2, 1000.0), (Bands.Split3, 6000.0), (Bands.Slope, 48.0));
    private readonly IProcessor _linear = Playing.Make(Bands.Definition, 2, Bands.In.To(), (Bands.Split2, 3000.0), (Bands.Phase, "linear"));
    private readonly IProcessor _dynamic = Playing.Make(DynamicEq.Definition, 2, DynamicEq.Bands.To(DynamicEq.Bell.With((DynamicEq.Bell.Freq, 180.0))));

    [Benchmark(Baseline = true, OperationsPerInvoke = Playing.Frames)]
    public void Plain_all_pass() => _plain.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Two_bands() => _playing.Through(_two);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Four_bands() => _playing.Through(_four);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Four_bands_of_48_db() => _playing.Through(_steep);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Three_bands_with_linear_phase() => _playing.Through(_linear);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void One_dynamic_bell() => _playing.Through(_dynamic);
}
