namespace DrumPrint.Dsp.Dynamics;

/// <summary>A smooth decoupled detector of one lane whose times move: with the sound, and with how deep a reduction is.</summary>
/// <remarks>
/// <para>Source of the detector: Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (17).</para>
/// <para>A reduction R that comes back by dR/dt = −(R / τ)(1 + R / D) is deep ones' quick and soft ones' slow return: the two ways by which a light-dependent
/// cell goes dark, each alone and two by two (R. H. Bube, Photoconductivity of Solids, 1960, from memory). Its solution, R e / (1 + (1 − e) R / D) with
/// e = e^(−t / τ), is exact for steps of any length.</para>
/// </remarks>
internal sealed class MovingFollower
{
    private const double Sliver = 1e-20;

    private readonly double _perDepth;
    private double _held;
    private double _reduction;

    /// <param name="deepDb">Depth at which a reduction comes back twice as fast; null where depth changes nothing.</param>
    public MovingFollower(double? deepDb) => _perDepth = deepDb is { } deep ? 1 / deep : 0;

    /// <summary>Whether nothing is turned down and nothing of the past is left.</summary>
    public bool IsAtRest => _held == 0 && _reduction == 0;

    /// <summary>Replaces the reductions asked for by those to apply.</summary>
    /// <param name="rows">A row for each point of a frame.</param>
    /// <param name="points">How many.</param>
    /// <param name="stride">Distance between them.</param>
    /// <param name="rises">What a rise keeps in a point, for each frame that counts.</param>
    /// <param name="falls">What the smoother keeps while it falls.</param>
    /// <param name="leaks">What the peak hold keeps.</param>
    public void Follow(Span<double> rows, int points, int stride, ReadOnlySpan<double> rises, ReadOnlySpan<double> falls, ReadOnlySpan<double> leaks)
    {
        var (held, reduction, perDepth) = (_held, _reduction, _perDepth);
        for (var n = 0; n < rises.Length; n++)
        {
            var (rise, fall, leak) = (rises[n], falls[n], leaks[n]);
            for (var i = n; i < points * stride; i += stride)
            {
                var asked = rows[i];
                var above = held - asked;
                var kept = above * leak;

                // Without depth this would divide by 1, which takes its time.
                if (perDepth != 0 || !(above <= double.MaxValue))
                {
                    kept /= 1 + (above * perDepth * (1 - leak));
                }

                held = above <= 0 ? asked : asked + AboveZero(kept - Sliver);
                var keep = held > reduction ? rise : fall;
                reduction = AboveZero((keep * reduction) + ((1 - keep) * held) - Sliver);
                rows[i] = reduction;
            }
        }

        (_held, _reduction) = (held, reduction);
    }

    // The larger of 0 and a value: as Math.Max has it, but sooner.
    private static double AboveZero(double value) => value <= 0 ? 0 : value;
}
