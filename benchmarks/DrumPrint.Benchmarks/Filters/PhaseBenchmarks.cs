using BenchmarkDotNet.Attributes;
using DrumPrint.Benchmarks.Dynamics;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Benchmarks.Filters;

/// <summary>Time for one frame of two channels: all-pass, turn, and the equaliser on sides and with linear phase.</summary>
public class PhaseBenchmarks
{
    private readonly Playing _playing = new(2);
    private readonly PlainAllPass _plain = new(400, 0.7071, 2);
    private readonly IProcessor _allPass = Playing.Make(Phase.Definition, 2, (Phase.AllPass, 400.0));
    private readonly IProcessor _turn = Playing.Make(Phase.Definition, 2, (Phase.Turn, 60.0));
    private readonly IProcessor _eq = Playing.Make(Eq.Definition, 2, Bands("both", "both"));
    private readonly IProcessor _sides = Playing.Make(Eq.Definition, 2, Bands("mid", "side"));
    private readonly IProcessor _linear = Playing.Make(Eq.Definition, 2, Bands("both", "both"), (Eq.Phase, "linear"));
    private readonly IProcessor _compress = Playing.Make(Compress.Definition, 2);
    private readonly IProcessor _compressMid = Playing.Make(Compress.Definition, 2, (Compress.On, "mid"));

    [Benchmark(Baseline = true, OperationsPerInvoke = Playing.Frames)]
    public void Plain_all_pass() => _plain.Process(_playing.Fresh());

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void All_pass() => _playing.Through(_allPass);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Turn() => _playing.Through(_turn);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Two_bands() => _playing.Through(_eq);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Two_bands_on_mid_and_side() => _playing.Through(_sides);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Two_bands_with_linear_phase() => _playing.Through(_linear);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Compress_both() => _playing.Through(_compress);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Compress_mid() => _playing.Through(_compressMid);

    private static (Parameter, object) Bands(string first, string second) => Eq.Bands.To(
        Eq.HighPass.With(Eq.HighPass.Freq.To(40), Eq.HighPass.Slope.To(24), Eq.HighPass.On.To(first)),
        Eq.Bell.With(Eq.Bell.Freq.To(3000), Eq.Bell.Gain.To(4), Eq.Bell.On.To(second)));
}
