using BenchmarkDotNet.Attributes;
using DrumPrint.Benchmarks.Dynamics;
using DrumPrint.Benchmarks.Filters;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Benchmarks.Mains;

/// <summary>Time for one frame of all channels: hum beside a plain cascade of twenty sections, as notches would be. The playing repeats every 0.2 s,
/// so that hum is found in it.</summary>
public class HumBenchmarks
{
    private const int Notches = 20;

    private Playing _playing = null!;
    private IProcessor _hum = null!;
    private IProcessor _long = null!;
    private PlainAllPass[] _plain = null!;

    [Params(1, 2)]
    public int Channels { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        _playing = new Playing(Channels);
        _hum = Playing.Make(Hum.Definition, Channels);
        _long = Playing.Make(Hum.Definition, Channels, (Hum.Learn, 20.0), (Hum.Harmonics, 40.0));
        _plain = [.. Enumerable.Range(1, Notches).Select(h => new PlainAllPass(50 * h, 10, Channels))];
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Playing.Frames)]
    public void Twenty_plain_sections()
    {
        var work = _playing.Fresh();
        foreach (var section in _plain)
        {
            section.Process(work);
        }
    }

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Hum_of_twenty_harmonics() => _playing.Through(_hum);

    [Benchmark(OperationsPerInvoke = Playing.Frames)]
    public void Hum_of_forty_harmonics_over_20_s() => _playing.Through(_long);
}
