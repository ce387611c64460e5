using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Saturation;

/// <summary><see cref="FirstOrder"/> for as many channels as there are lanes: the same operations, so the same bits.</summary>
internal struct FirstOrderLanes<T>(FirstOrder filter, T state)
    where T : struct, ILaneBits<T>
{
    private readonly T _now = filter.Now;
    private readonly T _fed = filter.Fed;
    private readonly T _keep = filter.Keep;
    private T _state = state;

    /// <summary>What is kept for the next sample.</summary>
    public readonly T State => _state;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Next(T x)
    {
        var y = T.Fma(_now, x, _state);
        _state = T.Fma(_keep, _state, _fed * x);
        return y;
    }

    /// <summary>Sets states that have faded away to zero.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Flush() => _state = Kept(_state);

    /// <summary>States that have not faded away; zero for the others.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Kept(T state) => T.WhereLess(Langevin.Size(state), FirstOrder.Negligible, 0, state);
}
