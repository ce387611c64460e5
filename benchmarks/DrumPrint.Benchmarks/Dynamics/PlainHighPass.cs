namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>A second-order Butterworth high-pass in the transposed direct form.</summary>
internal sealed class PlainHighPass
{
    private readonly double _b0;
    private readonly double _a1;
    private readonly double _a2;
    private double _s1;
    private double _s2;

    public PlainHighPass(double freqHz, double rate)
    {
        var k = Math.Tan(Math.PI * freqHz / rate);
        var a0 = 1 + (Math.Sqrt(2) * k) + (k * k);
        (_b0, _a1, _a2) = (1 / a0, 2 * ((k * k) - 1) / a0, (1 - (Math.Sqrt(2) * k) + (k * k)) / a0);
    }

    public double Next(double x)
    {
        var y = (_b0 * x) + _s1;
        _s1 = (-2 * _b0 * x) - (_a1 * y) + _s2;
        _s2 = (_b0 * x) - (_a2 * y);
        return y;
    }
}
