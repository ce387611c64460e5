using System.Numerics;
using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>Drives a signal into a curve around a working point; silence stays silence and small signals keep their level.</summary>
internal sealed class CurveStage<TCurve> : IOversampledStage
    where TCurve : struct, ICurve
{
    /// <summary>Delay in samples of the full rate.</summary>
    public const double Delay = 0.5;

    private readonly double _drive;
    private readonly double _bias;
    private readonly double _rest;
    private readonly double _scale;

    /// <param name="drive">Gain into the curve.</param>
    /// <param name="bias">Working point, −1 to 1.</param>
    public CurveStage(double drive, double bias)
    {
        _drive = drive;
        _bias = bias;
        _rest = default(TCurve).Mean(new Vector<double>(bias), new Vector<double>(bias))[0];
        _scale = 1 / default(TCurve).Slope(bias);
    }

    public void Bend(PhaseBuffer input, PhaseBuffer output, int frames)
    {
        var drive = new Vector<double>(_drive);
        var bias = new Vector<double>(_bias);
        var rest = new Vector<double>(_rest);
        var scale = new Vector<double>(_scale);
        for (var phase = 0; phase < input.Phases; phase++)
        {
            ref var now = ref input.Samples[input.Start(phase)];
            ref var before = ref input.Samples[phase > 0 ? input.Start(phase - 1) : input.Start(input.Phases - 1) - 1];
            ref var y = ref output.Samples[output.Start(phase)];
            for (var n = 0; n < frames; n += Vector<double>.Count)
            {
                var a = (Vector.LoadUnsafe(ref now, (nuint)n) * drive) + bias;
                var b = (Vector.LoadUnsafe(ref before, (nuint)n) * drive) + bias;
                ((default(TCurve).Mean(a, b) - rest) * scale).StoreUnsafe(ref Unsafe.Add(ref y, n));
            }
        }
    }
}
