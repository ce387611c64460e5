namespace DrumPrint.Dsp.Saturation;

/// <summary>A first-order filter (b0 + b1 z⁻¹)/(1 + a1 z⁻¹), one channel.</summary>
internal struct FirstOrder(double b0, double b1, double a1)
{
    /// <summary>Samples after which a state that has faded away is set to zero.</summary>
    public const int FlushFrames = 16;

    /// <summary>A state below this is set to zero before it becomes a subnormal number, which processors handle slowly.</summary>
    public const double Negligible = 1e-150;

    private double _state;

    /// <summary>What an input counts for at once.</summary>
    public readonly double Now => b0;

    /// <summary>What an input counts for in the state.</summary>
    public readonly double Fed { get; } = b1 - (a1 * b0);

    /// <summary>What is kept of the state.</summary>
    public readonly double Keep => -a1;

    /// <summary>The filter that undoes this one; stable when |b1| is less than |b0|.</summary>
    public readonly FirstOrder Inverse() => new(1 / b0, a1 / b0, b1 / b0);

    public double Next(double x)
    {
        var y = Math.FusedMultiplyAdd(b0, x, _state);
        _state = Math.FusedMultiplyAdd(Keep, _state, Fed * x);
        return y;
    }
}
