using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Planar rows whose every number is turned by its own root of unity on the way in.</summary>
/// <remarks>The roots of a strip lie row by row, first the cosines of the row and then its sines.</remarks>
internal readonly ref struct TurnedRows(ref double re, ref double im, nint stride, ref double roots) : IStripSource
{
    private readonly ref double _re = ref re;
    private readonly ref double _im = ref im;
    private readonly ref double _roots = ref roots;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Load<T>(nint row, nint column, out T re, out T im)
        where T : struct, ILane<T>
    {
        var at = (row * stride) + column;
        var xr = T.Load(ref Unsafe.Add(ref _re, at));
        var xi = T.Load(ref Unsafe.Add(ref _im, at));
        ref var root = ref Unsafe.Add(ref _roots, (Strip.RowLength * row) + column);
        var wr = T.Load(ref root);
        var wi = T.Load(ref Unsafe.Add(ref root, Strip.Width));
        re = (xr * wr) - (xi * wi);
        im = (xr * wi) + (xi * wr);
    }
}
