using DrumPrint.Dsp.Saturation;

namespace DrumPrint.Benchmarks.Saturation;

/// <summary>The tape's memory sample after sample as one would first write it: the curve by the runtime's functions, the gap by the
/// trapezoidal rule.</summary>
internal sealed class PlainTape(double rate)
{
    private readonly Hysteresis _figures = TapeMedium.Memory(rate);
    private double _field;
    private double _curve;
    private double _gap;

    public double Next(double field)
    {
        var curve = Math.Abs(field) < 1e-3 ? field / 3 : (1 / Math.Tanh(field)) - (1 / field);
        var move = field - _field;
        var half = (_figures.Shake + (_gap * move > 0 ? Math.Abs(move) * _figures.PerField : 0)) / 2;
        _gap = ((_gap * (1 - half)) + curve - _curve) / (1 + half);
        (_field, _curve) = (field, curve);
        return curve - (_figures.Irreversible * _gap);
    }
}
