namespace DrumPrint.Dsp;

/// <summary>A stretch of a planar signal: one span of samples for each channel, all of the same length.</summary>
public readonly ref struct AudioBlock
{
    private readonly ReadOnlySpan<double[]> _channels;
    private readonly int _start;

    /// <param name="channels">One array for each channel.</param>
    /// <param name="start">First frame of the block in each array.</param>
    /// <param name="frames">Length of the block, 0 or more.</param>
    public AudioBlock(ReadOnlySpan<double[]> channels, int start, int frames)
    {
        _channels = channels;
        _start = start;
        Frames = frames;
    }

    /// <summary>The block that holds no channel: an absent key.</summary>
    public static AudioBlock None => default;

    public int Channels => _channels.Length;

    public int Frames { get; }

    public Span<double> this[int channel] => _channels[channel].AsSpan(_start, Frames);

    /// <summary>A part of the block.</summary>
    public AudioBlock Slice(int start, int frames)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(start + frames, Frames);
        return new AudioBlock(_channels, _start + start, frames);
    }

    /// <summary>One channel of the block.</summary>
    public AudioBlock OneChannel(int channel) => new(_channels.Slice(channel, 1), _start, Frames);

    /// <summary>The first channels of the block.</summary>
    public AudioBlock FirstChannels(int count) => new(_channels[..count], _start, Frames);
}
