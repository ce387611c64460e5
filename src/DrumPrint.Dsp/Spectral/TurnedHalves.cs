using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>The two halves of a real signal as one complex signal, first − i·second, turned by its roots on the way in.</summary>
internal readonly ref struct TurnedHalves(ref double first, ref double second, nint stride, ref double cos, ref double sin) : IStripSource
{
    private readonly ref double _first = ref first;
    private readonly ref double _second = ref second;
    private readonly ref double _cos = ref cos;
    private readonly ref double _sin = ref sin;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Load<T>(nint row, nint column, out T re, out T im)
        where T : struct, ILane<T>
    {
        var at = (row * stride) + column;
        var a = T.Load(ref Unsafe.Add(ref _first, at));
        var b = T.Load(ref Unsafe.Add(ref _second, at));
        var c = T.Load(ref Unsafe.Add(ref _cos, at));
        var s = T.Load(ref Unsafe.Add(ref _sin, at));

        // (a − ib)·(c + is) with s the sine of a negative angle.
        re = (a * c) + (b * s);
        im = (a * s) - (b * c);
    }
}
