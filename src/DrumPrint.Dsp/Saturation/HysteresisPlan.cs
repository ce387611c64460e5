using System.Numerics;
using System.Runtime.CompilerServices;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The part of <see cref="Hysteresis.Next(double, double, double)"/> that depends on the field alone, for as many samples
/// as a vector has lanes.</summary>
internal readonly struct HysteresisPlan(Hysteresis memory)
{
    private readonly Vector<double> _halfPerField = new(memory.HalfPerField);
    private readonly Vector<double> _wholeShake = new(memory.WholeShake);

    /// <summary>Plans one sample.</summary>
    /// <param name="move">Change of the field.</param>
    /// <param name="top">The anhysteretic magnetisation times <paramref name="bottom"/>.</param>
    /// <param name="bottom">Above zero.</param>
    /// <param name="curve">The anhysteretic magnetisation.</param>
    /// <param name="step">What its change counts for while the gap closes faster: above zero where the field rises, below
    /// where it does not.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Prepare(Vector<double> move, Vector<double> top, Vector<double> bottom, out Vector<double> curve, out Vector<double> step)
    {
        var whole = Vector.FusedMultiplyAdd(Vector.Abs(move), _halfPerField, _wholeShake);
        var part = Vector<double>.One / (bottom * whole);
        curve = top * (whole * part);
        step = Vector.AndNot(new Vector<double>(-0.0), Vector.AsVectorDouble(Vector.GreaterThan(move, Vector<double>.Zero))) | (bottom * part);
    }
}
