using DrumPrint.Dsp;

namespace DrumPrint.Checking.Takes;

/// <summary>Mean power of each millisecond of a sound that lags the song; the latency is left out, so that millisecond 0 is millisecond 0 of the song.</summary>
internal sealed class LatePowers(int rateHz, long frames, long latency)
{
    private readonly MsPowers _powers = new(rateHz, frames);
    private long _toSkip = latency;

    public void Add(AudioBlock block)
    {
        var skip = (int)Math.Min(_toSkip, block.Frames);
        _toSkip -= skip;
        if (skip < block.Frames)
        {
            _powers.Add(block.Slice(skip, block.Frames - skip));
        }
    }

    public float[] Read() => _powers.Read();
}
