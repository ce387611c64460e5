using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Eight columns of complex numbers; each row holds its real parts and then its imaginary parts.</summary>
internal readonly ref struct Strip(ref double first) : IStripSource
{
    /// <summary>Columns: one cache line, and a multiple of every lane width.</summary>
    public const int Width = 8;

    /// <summary>Numbers in a row.</summary>
    public const int RowLength = 2 * Width;

    private readonly ref double _first = ref first;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Load<T>(nint row, nint column, out T re, out T im)
        where T : struct, ILane<T>
    {
        ref var at = ref Unsafe.Add(ref _first, (row * RowLength) + column);
        re = T.Load(ref at);
        im = T.Load(ref Unsafe.Add(ref at, Width));
    }

    /// <summary>Reads neighbouring columns and multiplies them by the conjugate of the root given as cosine and sine.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void LoadTurnedBack<T>(nint row, nint column, ref double root, out T re, out T im)
        where T : struct, ILane<T>
    {
        Load<T>(row, column, out var xr, out var xi);
        var (cos, sin) = (T.Of(root), T.Of(Unsafe.Add(ref root, 1)));
        re = T.Fma(xr, cos, xi * sin);
        im = T.FmaNegated(xr, sin, xi * cos);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store<T>(nint row, nint column, T re, T im)
        where T : struct, ILane<T>
    {
        ref var at = ref Unsafe.Add(ref _first, (row * RowLength) + column);
        re.Store(ref at);
        im.Store(ref Unsafe.Add(ref at, Width));
    }

    /// <summary>Multiplies by the root given as cosine and sine, and stores.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void StoreTurned<T>(nint row, nint column, T re, T im, ref double root)
        where T : struct, ILane<T>
    {
        var (cos, sin) = (T.Of(root), T.Of(Unsafe.Add(ref root, 1)));
        Store(row, column, T.FmaNegated(im, sin, re * cos), T.Fma(re, sin, im * cos));
    }
}
