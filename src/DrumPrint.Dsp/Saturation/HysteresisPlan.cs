using System.Numerics;
using System.Runtime.CompilerServices;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The part of <see cref="Hysteresis.Next"/> that does not depend on the gap, for as many samples as a vector has lanes.</summary>
/// <remarks>The gap is followed in the direction the field moves, so that the next one is always the smaller of two outcomes, each
/// a part of the last one plus something. Changes of sign are exact and cost nothing here.</remarks>
internal readonly struct HysteresisPlan(Hysteresis memory)
{
    private readonly Vector<double> _halfPerField = new(memory.HalfPerField);
    private readonly Vector<double> _halfShake = new(memory.HalfShake);
    private readonly Vector<double> _offKeep = new(memory.OffKeep);
    private readonly Vector<double> _offStep = new(memory.OffStep);
    private readonly Vector<double> _weight = new(-memory.Irreversible);

    /// <summary>−0 where the field does not rise, 0 where it does.</summary>
    /// <param name="move">Change of the field.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector<double> Direction(Vector<double> move) =>
        Vector.AndNot(new Vector<double>(-0.0), Vector.AsVectorDouble(Vector.GreaterThan(move, Vector<double>.Zero)));

    /// <summary>Plans one sample.</summary>
    /// <param name="move">Change of the field.</param>
    /// <param name="rise">Change of the anhysteretic magnetisation.</param>
    /// <param name="directionBefore">Direction at the sample before.</param>
    /// <param name="direction">Direction at this sample.</param>
    /// <param name="keep">Part of the gap kept while it closes faster.</param>
    /// <param name="on">What is added to that.</param>
    /// <param name="offKeep">Part of the gap kept otherwise.</param>
    /// <param name="off">What is added to that.</param>
    /// <param name="weight">What the gap counts for in the magnetisation.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Prepare(
        Vector<double> move,
        Vector<double> rise,
        Vector<double> directionBefore,
        Vector<double> direction,
        out Vector<double> keep,
        out Vector<double> on,
        out Vector<double> offKeep,
        out Vector<double> off,
        out Vector<double> weight)
    {
        var half = Vector.FusedMultiplyAdd(Vector.Abs(move), _halfPerField, _halfShake);
        var step = Vector<double>.One / (Vector<double>.One + half);
        var turn = direction ^ directionBefore;
        var directed = rise ^ direction;
        keep = ((Vector<double>.One - half) * step) ^ turn;
        on = directed * step;
        offKeep = _offKeep ^ turn;
        off = directed * _offStep;
        weight = _weight ^ direction;
    }
}
