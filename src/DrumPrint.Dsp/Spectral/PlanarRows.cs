using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Butterflies;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Rows of a matrix held as real parts and imaginary parts.</summary>
internal readonly ref struct PlanarRows(ref double re, ref double im, nint stride) : IStripSource
{
    private readonly ref double _re = ref re;
    private readonly ref double _im = ref im;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Load<T>(nint row, nint column, out T re, out T im)
        where T : struct, ILane<T>
    {
        var at = (row * stride) + column;
        re = T.Load(ref Unsafe.Add(ref _re, at));
        im = T.Load(ref Unsafe.Add(ref _im, at));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store<T>(nint row, nint column, T re, T im)
        where T : struct, ILane<T>
    {
        var at = (row * stride) + column;
        re.Store(ref Unsafe.Add(ref _re, at));
        im.Store(ref Unsafe.Add(ref _im, at));
    }
}
