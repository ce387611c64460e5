using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Transposes four by four numbers.</summary>
internal static class Tile
{
    /// <param name="from">First number; rows lie <paramref name="fromStride"/> apart.</param>
    /// <param name="fromStride">Distance between rows of the source.</param>
    /// <param name="to">First number of the result; rows lie <paramref name="toStride"/> apart.</param>
    /// <param name="toStride">Distance between rows of the result.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Transpose(ref double from, nint fromStride, ref double to, nint toStride)
    {
        if (!Avx.IsSupported)
        {
            for (nint row = 0; row < 4; row++)
            {
                for (nint column = 0; column < 4; column++)
                {
                    Unsafe.Add(ref to, (column * toStride) + row) = Unsafe.Add(ref from, (row * fromStride) + column);
                }
            }

            return;
        }

        var a = Vector256.LoadUnsafe(ref from);
        var b = Vector256.LoadUnsafe(ref Unsafe.Add(ref from, fromStride));
        var c = Vector256.LoadUnsafe(ref Unsafe.Add(ref from, 2 * fromStride));
        var d = Vector256.LoadUnsafe(ref Unsafe.Add(ref from, 3 * fromStride));
        var ab = Avx.UnpackLow(a, b);
        var cd = Avx.UnpackLow(c, d);
        var abHigh = Avx.UnpackHigh(a, b);
        var cdHigh = Avx.UnpackHigh(c, d);
        Avx.Permute2x128(ab, cd, 0x20).StoreUnsafe(ref to);
        Avx.Permute2x128(abHigh, cdHigh, 0x20).StoreUnsafe(ref Unsafe.Add(ref to, toStride));
        Avx.Permute2x128(ab, cd, 0x31).StoreUnsafe(ref Unsafe.Add(ref to, 2 * toStride));
        Avx.Permute2x128(abHigh, cdHigh, 0x31).StoreUnsafe(ref Unsafe.Add(ref to, 3 * toStride));
    }
}
