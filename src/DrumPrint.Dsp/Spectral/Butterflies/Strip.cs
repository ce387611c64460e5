using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Eight columns of complex numbers; each row holds its real parts and then its imaginary parts.</summary>
internal readonly ref struct Strip(ref double first)
{
    /// <summary>Columns: one cache line, and a multiple of every lane width.</summary>
    public const int Width = 8;

    /// <summary>Numbers in a row.</summary>
    public const int RowLength = 2 * Width;

    private readonly ref double _first = ref first;

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
        Turn.Store(ref Unsafe.Add(ref _first, (row * RowLength) + column), re, im, ref root);
    }
}
