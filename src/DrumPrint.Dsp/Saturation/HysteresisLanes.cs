using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The part of <see cref="Hysteresis.Next(double, double, double)"/> that depends on what was before, for two channels at
/// once: the same bits.</summary>
/// <remarks>The gap is followed in the direction the field moves, so that the next one is always the smaller of two outcomes and
/// the way from one gap to the next is short. Changes of sign are exact.</remarks>
internal struct HysteresisLanes(Hysteresis memory)
{
    private readonly Vector128<double> _offKeep = Vector128.Create(memory.OffKeep);
    private readonly Vector128<double> _offStep = Vector128.Create(memory.OffStep);
    private readonly Vector128<double> _weight = Vector128.Create(-memory.Irreversible);
    private Vector128<double> _curve;
    private Vector128<double> _direction;
    private Vector128<double> _gap;

    /// <summary>The magnetisation after a step that <see cref="HysteresisPlan"/> has prepared.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector128<double> Next(Vector128<double> curve, Vector128<double> step)
    {
        var direction = step & Vector128.Create(-0.0);
        var turn = direction ^ _direction;
        var rise = curve - _curve;
        var keep = Vector128.FusedMultiplyAdd(Vector128.Create(2.0), Vector128.Abs(step), Vector128.Create(-1.0)) ^ turn;
        var faster = Vector128.FusedMultiplyAdd(keep, _gap, rise * step);
        var slower = Vector128.FusedMultiplyAdd(_offKeep ^ turn, _gap, (rise ^ direction) * _offStep);
        (_curve, _direction) = (curve, direction);
        _gap = Vector128.MinNative(faster, slower);
        return Vector128.FusedMultiplyAdd(_weight ^ direction, _gap, curve);
    }

    /// <summary>Sets gaps that have faded away to zero.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Flush() => _gap = FirstOrderLanes.Kept(_gap);
}
