namespace DrumPrint.Dsp.Dynamics;

/// <summary>Gives the reduction a compressor asks for its attack and release: the feed-forward side.</summary>
internal sealed class ReductionFollower(Ballistics ballistics)
{
    /// <summary>Decibels too few to change a 64-bit sample; below it a reduction is over.</summary>
    public const double Negligible = 1e-14;

    private double _held;
    private double _reduction;

    /// <summary>Replaces the reductions asked for by those to apply.</summary>
    public void Follow(Span<double> reductions)
    {
        var (leak, rise, fall) = (ballistics.Leak, ballistics.Rise, ballistics.Fall);
        var (held, reduction) = (_held, _reduction);
        foreach (ref var frame in reductions)
        {
            held = double.MaxNative(frame, Math.FusedMultiplyAdd(leak, held, (1 - leak) * frame));
            held = held < Negligible ? 0 : held;
            var keep = held > reduction ? rise : fall;
            reduction = Math.FusedMultiplyAdd(keep, reduction, (1 - keep) * held);
            reduction = reduction < Negligible ? 0 : reduction;
            frame = reduction;
        }

        (_held, _reduction) = (held, reduction);
    }
}
