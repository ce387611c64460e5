namespace DrumPrint.Live;

/// <summary>Lets one graph come in over the other.</summary>
public sealed partial class LiveEngine
{
    // What sounded goes on for one block, in which the other comes in. One that has not sounded yet is passed over.
    private void Take(LiveGraph to)
    {
        if (_fading is { } heard)
        {
            _now.Drop(to, heard);
        }
        else
        {
            _fading = _now;
        }

        _now = to;
    }

    private void Write(Span<float> stereo)
    {
        var (from, to) = (_gain, Volatile.Read(ref _wantedGain));
        _gain = to;
        var heard = _now.Heard;
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

        _fading.Drop(_now);
        _fading = null;
    }
}
