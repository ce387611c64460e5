using BenchmarkDotNet.Attributes;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Benchmarks.Saturation;

/// <summary>Saturate and tape over a tenth of a second, against the same work sample after sample. For the time of a frame and
/// channel divide by 4800, and for stereo by 9600.</summary>
[MemoryDiagnoser]
[MinColumn]
public class SaturationBenchmarks
{
    private const int SampleRate = 48000;
    private const int Frames = 4800;
    private const int BlockFrames = 480;

    private readonly double[] _source = new double[Frames];
    private readonly double[][] _buffer = [new double[Frames], new double[Frames]];
    private IProcessor _saturate = null!;
    private IProcessor _tape = null!;
    private IProcessor _stereoSaturate = null!;
    private IProcessor _stereoTape = null!;
    private PlainRate _plainSaturate = null!;
    private PlainRate _plainTape = null!;
    private PlainTape _plainMedium = null!;

    [Params(2, 4, 8, 16)]
    public int Oversampling { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        // A hit: noise that dies away.
        var noise = new Random(1);
        for (var n = 0; n < Frames; n++)
        {
            _source[n] = 0.5 * ((2 * noise.NextDouble()) - 1) * Math.Exp(-n / 1000.0);
        }

        var context = new ProcessorContext(new AudioFormat(SampleRate, 1), Frames);
        _saturate = Saturate.Definition.Create(Settings.Of(Saturate.Definition.Parameters, (Saturate.Factor, (double)Oversampling)), context);
        _tape = Tape.Definition.Create(Settings.Of(Tape.Definition.Parameters, (Tape.Factor, (double)Oversampling)), context);
        var stereo = new ProcessorContext(new AudioFormat(SampleRate, 2), Frames);
        _stereoSaturate = Saturate.Definition.Create(Settings.Of(Saturate.Definition.Parameters, (Saturate.Factor, (double)Oversampling)), stereo);
        _stereoTape = Tape.Definition.Create(Settings.Of(Tape.Definition.Parameters, (Tape.Factor, (double)Oversampling)), stereo);
        _plainSaturate = new PlainRate(Oversampling, SampleRate);
        _plainTape = new PlainRate(Oversampling, SampleRate);
        _plainMedium = new PlainTape((double)SampleRate * Oversampling);
    }

    [Benchmark]
    public double Saturate_plain() => Plain(_plainSaturate, static x => x / Math.Sqrt(1 + (x * x)));

    [Benchmark]
    public void Saturate_ours() => Ours(_saturate, 1);

    [Benchmark]
    public void Saturate_ours_stereo() => Ours(_stereoSaturate, 2);

    [Benchmark]
    public double Tape_medium_plain() => Plain(_plainTape, _plainMedium.Next);

    [Benchmark]
    public void Tape_ours() => Ours(_tape, 1);

    [Benchmark]
    public void Tape_ours_stereo() => Ours(_stereoTape, 2);

    private double Plain(PlainRate rate, Func<double, double> bend)
    {
        var sum = 0.0;
        foreach (var x in _source)
        {
            sum += rate.Next(x, bend);
        }

        return sum;
    }

    private void Ours(IProcessor processor, int channels)
    {
        for (var channel = 0; channel < channels; channel++)
        {
            _source.CopyTo(_buffer[channel], 0);
        }

        for (var start = 0; start < Frames; start += BlockFrames)
        {
            processor.Process(new AudioBlock(_buffer.AsSpan(0, channels), start, BlockFrames), AudioBlock.None);
        }
    }
}
