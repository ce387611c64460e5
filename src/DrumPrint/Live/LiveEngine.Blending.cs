namespace DrumPrint.Live;

/// <summary>Lets one graph come in over the other.</summary>
public sealed partial class LiveEngine
{
    // What sounded goes on for one block, in which the other comes in. One that has not sounded yet is passed over.
    private void Take(LiveGraph to, LiveGraph? other)
    {
        _fading ??= HeardGraph;
        LiveGraph[] kept = other is null ? [to, _fading] : [to, other, _fading];
        if (!ReferenceEquals(_now, _fading))
        {
            _now.Drop(_other is null ? kept : [.. kept, _other]);
        }

        if (_other is not null && !ReferenceEquals(_other, _fading))
        {
            _other.Drop(kept);
        }

        (_now, _other) = (to, other);
    }

    private void Write(Span<float> stereo)
    {
        var (from, to) = (_gain, NextGain());
        _gain = to;
        var heard = HeardGraph.Heard;
        if (_fading is null)
        {
            for (var n = 0; n < BlockFrames; n++)
            {
                var gain = from + ((to - from) * (n + 1) / BlockFrames);
                stereo[2 * n] = (float)(gain * heard[0][n]);
                stereo[(2 * n) + 1] = (float)(gain * heard[1][n]);
            }

            return;
        }

        _fading.Advance(_fading.Position);
        var before = _fading.Heard;
        for (var n = 0; n < BlockFrames; n++)
        {
            var part = (n + 1.0) / (BlockFrames + 1);
            var gain = from + ((to - from) * part);
            stereo[2 * n] = (float)(gain * (before[0][n] + (part * (heard[0][n] - before[0][n]))));
            stereo[(2 * n) + 1] = (float)(gain * (before[1][n] + (part * (heard[1][n] - before[1][n]))));
        }

        _fading.Drop(_other is null ? [_now] : [_now, _other]);
        _fading = null;
    }
}
