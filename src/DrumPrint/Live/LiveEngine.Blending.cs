namespace DrumPrint.Live;

/// <summary>Lets one graph come in over the other.</summary>
public sealed partial class LiveEngine
{
    // The graph that a change borrows running nodes from; its memory is given back when that is done.
    private LiveGraph? _lent;
    private bool _isLentLeft;

    private LiveGraph LendNow()
    {
        lock (_play)
        {
            // What goes back to a repeated stretch would be of no use after the change, and its memory is. A change that is refused costs it too.
            GiveUpAgain();
            return _lent = _now;
        }
    }

    // The change that borrowed is done; what it made is dropped where it comes to nothing.
    private void TakeBack(LiveGraph lent, LiveGraph? made)
    {
        made?.Drop([lent, .. Living()]);
        if (_isLentLeft)
        {
            lent.Drop(Living());
        }

        (_lent, _isLentLeft) = (null, false);
    }

    private IEnumerable<LiveGraph> Living() => new[] { _now, _other, _fading }.OfType<LiveGraph>();

    // Gives back the memory of a graph that is no longer heard, or leaves it to the change that still reads it.
    private void Leave(LiveGraph graph, IEnumerable<LiveGraph> kept)
    {
        if (ReferenceEquals(graph, _lent))
        {
            _isLentLeft = true;
        }
        else
        {
            graph.Drop(_lent is null ? kept : [.. kept, _lent]);
        }
    }

    // What sounded goes on for one block, in which the other comes in. One that has not sounded yet is passed over.
    private void Take(LiveGraph to, LiveGraph? other)
    {
        _fading ??= HeardGraph;
        LiveGraph[] kept = other is null ? [to, _fading] : [to, other, _fading];
        if (!ReferenceEquals(_now, _fading))
        {
            Leave(_now, _other is null ? kept : [.. kept, _other]);
        }

        if (_other is not null && !ReferenceEquals(_other, _fading))
        {
            Leave(_other, kept);
        }

        (_now, _other) = (to, other);
    }

    private void Write(Span<float> stereo)
    {
        var (from, to) = (_gain, NextGain());
        _gain = to;
        var heard = HeardGraph.Heard;
        if (_isBack)
        {
            BlendIntoPast(stereo, to);
        }
        else if (_fading is null)
        {
            for (var n = 0; n < BlockFrames; n++)
            {
                var gain = from + ((to - from) * (n + 1) / BlockFrames);
                stereo[2 * n] = (float)(gain * heard[0][n]);
                stereo[(2 * n) + 1] = (float)(gain * heard[1][n]);
            }
        }
        else
        {
            Blend(stereo, from, to);
        }

        if (_fading is not null)
        {
            Leave(_fading, _other is null ? [_now] : [_now, _other]);
        }

        (_fading, _isBack) = (null, false);
    }

    private void Blend(Span<float> stereo, double from, double to)
    {
        var heard = HeardGraph.Heard;
        _fading!.Advance(_fading.Position);
        var before = _fading.Heard;
        for (var n = 0; n < BlockFrames; n++)
        {
            var part = (n + 1.0) / (BlockFrames + 1);
            var gain = from + ((to - from) * part);
            stereo[2 * n] = (float)(gain * (before[0][n] + (part * (heard[0][n] - before[0][n]))));
            stereo[(2 * n) + 1] = (float)(gain * (before[1][n] + (part * (heard[1][n] - before[1][n]))));
        }
    }
}
