using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>Something like playing for a processor to work on: noise bursts, ten a second, that die away.</summary>
internal sealed class Playing
{
    public const int Frames = 9600;
    private const int BlockFrames = 480;
    private const int SampleRate = 48000;

    private readonly double[][] _source;
    private readonly double[][] _work;
    private readonly float[] _interleaved;
    private readonly float[] _interleavedWork;

    public Playing(int channels)
    {
        _source = new double[channels][];
        _work = new double[channels][];
        _interleaved = new float[Frames * channels];
        _interleavedWork = new float[Frames * channels];
        for (var c = 0; c < channels; c++)
        {
            var noise = new CounterNoise((ulong)c);
            _work[c] = new double[Frames];
            _source[c] = new double[Frames];
            for (var n = 0; n < Frames; n++)
            {
                _source[c][n] = noise.Bipolar(n) * Math.Exp(-(n % 4800) / 600.0);
                _interleaved[(n * channels) + c] = (float)_source[c][n];
            }
        }
    }

    public static IProcessor Make(ProcessorDefinition definition, int channels, params (Parameter, object)[] values) =>
        definition.Create(Settings.Of(definition.Parameters, values), new ProcessorContext(new AudioFormat(SampleRate, channels), Frames));

    /// <summary>A fresh copy of the playing.</summary>
    public double[][] Fresh()
    {
        for (var c = 0; c < _source.Length; c++)
        {
            _source[c].CopyTo(_work[c], 0);
        }

        return _work;
    }

    public void Through(IProcessor processor)
    {
        var work = Fresh();
        for (var start = 0; start < Frames; start += BlockFrames)
        {
            processor.Process(new AudioBlock(work, start, BlockFrames), AudioBlock.None);
        }
    }

    public void Through(NAudio.Effects.AudioEffect effect)
    {
        _interleaved.CopyTo(_interleavedWork, 0);
        var step = BlockFrames * _source.Length;
        for (var start = 0; start < _interleavedWork.Length; start += step)
        {
            effect.Process(_interleavedWork.AsSpan(start, step));
        }
    }
}
