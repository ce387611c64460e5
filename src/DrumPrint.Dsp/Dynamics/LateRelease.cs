namespace DrumPrint.Dsp.Dynamics;

/// <summary>What becomes of a reduction once it falls: it may stay for a while, and what has lasted may come back slowly.</summary>
/// <remarks>
/// A second store fills towards the reduction while it is lower, and empties slowly; the higher of the two counts. Turned down by R for a
/// time T, it holds R · (1 − e^(−T / after)), and t later e^(−t / release) of that. Both steps are the one-pole steps of Giannoulis,
/// Massberg and Reiss, JAES 60(6), 2012, eq. (7); two releases beside each other: common practice, no source. The hold is the largest
/// reduction of the last moments.
/// </remarks>
internal sealed class LateRelease
{
    // Makes what is left end in zero, not in subnormal numbers.
    private const double Sliver = 1e-20;

    private readonly RunningMaximum? _hold;
    private readonly int _holdPoints;
    private readonly bool _isSlow;
    private readonly double _fill;
    private readonly double _keep;
    private double _store;
    private int _quiet;

    /// <param name="holdPoints">Points for which a reduction stays; 0 for none.</param>
    /// <param name="slowReleasePoints">Points in which the store has emptied by 63.2 %; null for no store.</param>
    /// <param name="slowAfterPoints">Points in which it has filled by 63.2 %.</param>
    public LateRelease(int holdPoints, double? slowReleasePoints, double slowAfterPoints)
    {
        _hold = holdPoints > 0 ? new RunningMaximum(holdPoints + 1) : null;
        (_holdPoints, _quiet) = (holdPoints, holdPoints);
        _isSlow = slowReleasePoints is not null;
        _fill = 1 - TimeConstant.PerFrame(slowAfterPoints);
        _keep = TimeConstant.PerFrame(slowReleasePoints ?? 0);
    }

    /// <summary>Whether nothing of the past is left.</summary>
    public bool IsAtRest => _store == 0 && _quiet >= _holdPoints;

    /// <summary>Replaces the reductions of rows, one for each point of a frame.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="points">How many.</param>
    /// <param name="stride">Distance between them.</param>
    /// <param name="frames">Frames that count.</param>
    public void Follow(Span<double> rows, int points, int stride, int frames)
    {
        for (var n = 0; n < frames; n++)
        {
            for (var i = n; i < points * stride; i += stride)
            {
                var reduction = rows[i];
                if (_isSlow)
                {
                    var step = reduction > _store ? _fill * (reduction - _store) : (_keep - 1) * (_store - reduction);
                    _store = Math.Max(0, _store + step - Sliver);
                    reduction = Math.Max(reduction, _store);
                }

                if (_hold is { } hold)
                {
                    _quiet = reduction == 0 ? Math.Min(_quiet + 1, _holdPoints) : 0;
                    reduction = hold.Next(reduction);
                }

                rows[i] = reduction;
            }
        }
    }
}
