namespace DrumPrint.Live;

/// <summary>Lets a change come in over blocks that were given already and that nobody has begun to hear.</summary>
public sealed partial class LiveEngine
{
    /// <summary>The most blocks by which <see cref="Next"/> goes back for a change; a repeated stretch goes back by more.</summary>
    public const int MostBack = PastBlocks.Most;

    private readonly PastBlocks _past;
    private bool _isBack;
    private long _metered;

    /// <summary>Tells how many of the blocks given last have not begun to sound, so that they can be given again. Asked from any thread.</summary>
    public Func<int> Unheard { get; set; } = static () => 0;

    /// <summary>Told when a change comes in, by how many blocks <see cref="Next"/> goes back for it. It must not wait for another thread.</summary>
    public Action<int> Joined { get; set; } = static _ => { };

    // By how many blocks a change may go back now.
    private int Back()
    {
        lock (_play)
        {
            return _other is null ? Math.Clamp(Unheard(), 0, _past.Before(_now.Position)) : 0;
        }
    }

    // The graph stands there already.
    private void GoBack(int blocks)
    {
        // One that came in before may wait for its first block still.
        _isBack |= blocks > 0;
        _metered = Math.Max(_metered, _now.Position + blocks);
        Joined(blocks);
    }

    private void Forget()
    {
        _past.Clear();
        (_isBack, _metered) = (false, 0);
    }

    // What was given goes over into what comes in its place.
    private void BlendIntoPast(Span<float> stereo, double gain)
    {
        var heard = HeardGraph.Heard;
        var past = _past.At(_now.Position - 1);
        for (var n = 0; n < BlockFrames; n++)
        {
            var part = (n + 1.0) / (BlockFrames + 1);
            stereo[2 * n] = (float)(past[2 * n] + (part * ((gain * heard[0][n]) - past[2 * n])));
            stereo[(2 * n) + 1] = (float)(past[(2 * n) + 1] + (part * ((gain * heard[1][n]) - past[(2 * n) + 1])));
        }
    }
}
