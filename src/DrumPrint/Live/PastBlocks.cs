namespace DrumPrint.Live;

/// <summary>The blocks given last, as they were given, so that another sound can come in over one of them.</summary>
/// <param name="samples">Samples of a block, both channels together.</param>
internal sealed class PastBlocks(int samples)
{
    /// <summary>How many are kept.</summary>
    public const int Most = 8;

    private readonly float[][] _blocks = [.. Enumerable.Range(0, Most).Select(_ => new float[samples])];
    private long _from;
    private long _to;

    /// <summary>Forgets all.</summary>
    public void Clear() => _from = _to;

    /// <summary>Keeps a block; one that does not go on from the last begins anew.</summary>
    public void Keep(long position, ReadOnlySpan<float> stereo)
    {
        stereo.CopyTo(_blocks[position % Most]);
        _from = position >= _from && position <= _to ? Math.Max(_from, position + 1 - Most) : position;
        _to = position + 1;
    }

    /// <summary>How many kept blocks lie before a position, without a gap.</summary>
    public int Before(long position) => position <= _to ? (int)Math.Max(0, position - _from) : 0;

    /// <summary>A kept block.</summary>
    public ReadOnlySpan<float> At(long position) => _blocks[position % Most];
}
