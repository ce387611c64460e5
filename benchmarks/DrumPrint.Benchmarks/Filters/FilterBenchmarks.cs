using BenchmarkDotNet.Attributes;
using DrumPrint.Dsp.Filters;
using NAudio.Dsp;
using Reference = NWaves.Filters.BiQuad.BiQuadFilter;

namespace DrumPrint.Benchmarks.Filters;

/// <summary>
/// Sections in series over a stereo signal. Divide the time by frames, sections and channels for the price of one section
/// and sample; the two libraries keep 32-bit samples, ours 64-bit ones.
/// </summary>
[MemoryDiagnoser]
public class FilterBenchmarks
{
    private const int Frames = 4800;

    private readonly double[] _left = new double[Frames];
    private readonly double[] _right = new double[Frames];
    private readonly float[] _single = new float[Frames];
    private FilterCascade[] _channels = [];
    private StereoFilterCascade? _stereo;
    private TapFilter[] _corrections = [];
    private Reference[] _nwaves = [];
    private BiQuadFilter[] _naudio = [];

    [Params(1, 2, 4)]
    public int Sections { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        for (var i = 0; i < Frames; i++)
        {
            _left[i] = (i * 7919 % 1000 / 1000.0) - 0.5;
            _right[i] = (i * 104729 % 1000 / 1000.0) - 0.5;
            _single[i] = (float)_left[i];
        }

        // A bell of no gain keeps the level where it is, however often the same samples go through.
        var sections = Enumerable.Repeat(BiquadDesign.Bell(200, 0, 1, 48000)[0], Sections).ToArray();
        _channels = [new FilterCascade(sections), new FilterCascade(sections)];
        _stereo = new StereoFilterCascade(sections);
        var design = CorrectedDesign.Of([AnalogBand.Bell(200, 0, 1)], 48000);
        _corrections = [new TapFilter(design.Taps), new TapFilter(design.Taps)];
        var s = sections[0];
        _nwaves = [.. Enumerable.Range(0, Sections * 2).Select(_ => new Reference((float)s.B0, (float)s.B1, (float)s.B2, 1, (float)s.A1, (float)s.A2))];
        _naudio = [.. Enumerable.Range(0, Sections * 2).Select(_ => BiQuadFilter.PeakingEQ(48000, 200, 1, 0))];
    }

    [Benchmark(Baseline = true)]
    public void OneChannelAfterTheOther()
    {
        _channels[0].Process(_left);
        _channels[1].Process(_right);
    }

    [Benchmark]
    public void BothChannelsInLanes() => _stereo!.Process(_left, _right);

    /// <summary>What <c>eq</c> does: a section for each band, and one correction for all of them.</summary>
    [Benchmark]
    public void AsTheEqualiserDoes()
    {
        _stereo!.Process(_left, _right);
        _corrections[0].Process(_left);
        _corrections[1].Process(_right);
    }

    [Benchmark]
    public void SampleBySample()
    {
        for (var i = 0; i < Frames; i++)
        {
            _left[i] = _channels[0].Next(_left[i]);
            _right[i] = _channels[1].Next(_right[i]);
        }
    }

    [Benchmark]
    public void NWaves()
    {
        foreach (var filter in _nwaves)
        {
            for (var i = 0; i < Frames; i++)
            {
                _single[i] = filter.Process(_single[i]);
            }
        }
    }

    [Benchmark]
    public void NAudio()
    {
        foreach (var filter in _naudio)
        {
            for (var i = 0; i < Frames; i++)
            {
                _single[i] = filter.Transform(_single[i]);
            }
        }
    }
}
