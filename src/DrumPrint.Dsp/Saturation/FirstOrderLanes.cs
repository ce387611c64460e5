using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Saturation;

/// <summary><see cref="FirstOrder"/> for two channels at once, in the lanes of a vector: the same operations, so the same bits.</summary>
internal struct FirstOrderLanes(FirstOrder filter)
{
    private readonly Vector128<double> _now = Vector128.Create(filter.Now);
    private readonly Vector128<double> _fed = Vector128.Create(filter.Fed);
    private readonly Vector128<double> _keep = Vector128.Create(filter.Keep);
    private Vector128<double> _state;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector128<double> Next(Vector128<double> x)
    {
        var y = Vector128.FusedMultiplyAdd(_now, x, _state);
        _state = Vector128.FusedMultiplyAdd(_keep, _state, _fed * x);
        return y;
    }

    /// <summary>Sets states that have faded away to zero.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Flush() => _state = Kept(_state);

    /// <summary>States that have not faded away; zero for the others.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector128<double> Kept(Vector128<double> state) => Vector128.ConditionalSelect(
        Vector128.LessThan(Vector128.Abs(state), Vector128.Create(FirstOrder.Negligible)),
        Vector128<double>.Zero,
        state);
}
