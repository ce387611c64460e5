using DrumPrint.Dsp;

namespace DrumPrint.Rendering;

/// <summary>Delays a signal by a fixed number of frames, a block in for a block out.</summary>
internal sealed class DelayLine
{
    private readonly int _delay;
    private readonly double[][] _memory;
    private readonly double[][] _output;
    private int _position;

    public DelayLine(int channels, long delayFrames, int blockFrames)
    {
        _delay = checked((int)delayFrames);
        _memory = new double[channels][];
        _output = new double[channels][];
        for (var channel = 0; channel < channels; channel++)
        {
            _memory[channel] = new double[_delay];
            _output[channel] = new double[blockFrames];
        }
    }

    /// <summary>Takes the next block and gives the delayed one, valid until the next call.</summary>
    public AudioBlock Next(AudioBlock input)
    {
        if (_delay == 0)
        {
            return input;
        }

        var position = _position;
        for (var channel = 0; channel < _memory.Length; channel++)
        {
            position = Next(input[channel], _memory[channel], _output[channel]);
        }

        _position = position;
        return new AudioBlock(_output, 0, input.Frames);
    }

    private int Next(ReadOnlySpan<double> input, Span<double> memory, Span<double> output)
    {
        var position = _position;
        for (var done = 0; done < input.Length;)
        {
            var length = Math.Min(input.Length - done, _delay - position);
            memory.Slice(position, length).CopyTo(output[done..]);
            input.Slice(done, length).CopyTo(memory[position..]);
            done += length;
            position = position + length == _delay ? 0 : position + length;
        }

        return position;
    }
}
