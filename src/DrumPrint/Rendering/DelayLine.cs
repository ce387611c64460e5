using DrumPrint.Dsp;

namespace DrumPrint.Rendering;

/// <summary>Delays a signal by a fixed number of frames, a block in for a block out.</summary>
/// <remarks>The delayed block is read where it lies, partly in the memory and partly in the next block itself. So nothing is
/// moved but what must be kept.</remarks>
internal sealed class DelayLine
{
    private readonly int _delay;
    private readonly double[][] _memory;
    private int _position;

    public DelayLine(int channels, long delayFrames)
    {
        _delay = checked((int)delayFrames);
        _memory = new double[channels][];
        for (var channel = 0; channel < channels; channel++)
        {
            _memory[channel] = new double[_delay];
        }
    }

    /// <summary>The delayed block from a frame on, as far as it lies in one piece: at least one frame.</summary>
    /// <param name="next">The next block, not yet taken.</param>
    /// <param name="channel">Which channel.</param>
    /// <param name="frame">First frame wanted.</param>
    public ReadOnlySpan<double> Delayed(AudioBlock next, int channel, int frame)
    {
        if (frame >= _delay)
        {
            return next[channel][(frame - _delay)..(next.Frames - _delay)];
        }

        var place = (_position + frame) % _delay;
        return _memory[channel].AsSpan(place, Math.Min(_delay - place, Math.Min(_delay, next.Frames) - frame));
    }

    /// <summary>Takes the next block, once it has been read.</summary>
    public void Take(AudioBlock next)
    {
        if (_delay == 0)
        {
            return;
        }

        // Of a block longer than the memory only the end is kept.
        var skipped = Math.Max(0, next.Frames - _delay);
        var kept = next.Frames - skipped;
        var first = Math.Min(kept, _delay - _position);
        for (var channel = 0; channel < _memory.Length; channel++)
        {
            var samples = next[channel][skipped..];
            samples[..first].CopyTo(_memory[channel].AsSpan(_position));
            samples[first..].CopyTo(_memory[channel]);
        }

        _position = (_position + kept) % _delay;
    }

    /// <summary>Writes the delayed block and takes the next one.</summary>
    /// <param name="next">The next block.</param>
    /// <param name="output">Where the delayed block goes; other memory than the next block's.</param>
    public void Move(AudioBlock next, AudioBlock output)
    {
        for (var channel = 0; channel < _memory.Length; channel++)
        {
            for (var frame = 0; frame < next.Frames;)
            {
                var piece = Delayed(next, channel, frame);
                piece.CopyTo(output[channel][frame..]);
                frame += piece.Length;
            }
        }

        Take(next);
    }
}
