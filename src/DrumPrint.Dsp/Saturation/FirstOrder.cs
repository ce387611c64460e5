namespace DrumPrint.Dsp.Saturation;

/// <summary>A first-order filter (b0 + b1 z⁻¹)/(1 + a1 z⁻¹), one channel.</summary>
internal struct FirstOrder(double b0, double b1, double a1)
{
    /// <summary>A state below this is set to zero before it becomes a subnormal number, which processors handle slowly.</summary>
    private const double Negligible = 1e-150;

    private readonly double _fed = b1 - (a1 * b0);
    private double _state;

    /// <summary>The filter that undoes this one; stable when |b1| is less than |b0|.</summary>
    public readonly FirstOrder Inverse() => new(1 / b0, a1 / b0, b1 / b0);

    public double Next(double x)
    {
        var y = (b0 * x) + _state;
        _state = (_fed * x) - (a1 * _state);
        return y;
    }

    /// <summary>Sets a state that has faded away to zero.</summary>
    public void Flush() => _state = Math.Abs(_state) < Negligible ? 0 : _state;
}
