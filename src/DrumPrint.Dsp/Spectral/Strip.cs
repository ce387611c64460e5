using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Eight columns of complex numbers; each row holds its real parts and then its imaginary parts.</summary>
internal readonly ref struct Strip(ref double first) : IStripSource, IStripTarget
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

    /// <summary>Reads neighbouring columns and multiplies them by one complex number.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void LoadTurned<T>(nint row, nint column, T wr, T wi, out T re, out T im)
        where T : struct, ILane<T>
    {
        Load<T>(row, column, out var xr, out var xi);
        re = (xr * wr) - (xi * wi);
        im = (xr * wi) + (xi * wr);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store<T>(nint row, nint column, T re, T im)
        where T : struct, ILane<T>
    {
        ref var at = ref Unsafe.Add(ref _first, (row * RowLength) + column);
        re.Store(ref at);
        im.Store(ref Unsafe.Add(ref at, Width));
    }
}
