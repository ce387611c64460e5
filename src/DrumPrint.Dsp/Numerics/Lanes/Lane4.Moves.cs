using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <content>The moves of four numbers.</content>
internal readonly partial struct Lane4
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void LoadPairs(ref double from, out Lane4 even, out Lane4 odd)
    {
        var a = Vector256.LoadUnsafe(ref from);
        var b = Vector256.LoadUnsafe(ref from, 4);
        if (Avx2.IsSupported)
        {
            even = new Lane4(Avx2.Permute4x64(Avx.UnpackLow(a, b), 0b11_01_10_00));
            odd = new Lane4(Avx2.Permute4x64(Avx.UnpackHigh(a, b), 0b11_01_10_00));
            return;
        }

        even = new Lane4(Vector256.Create(a[0], a[2], b[0], b[2]));
        odd = new Lane4(Vector256.Create(a[1], a[3], b[1], b[3]));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void StorePairs(ref double to, Lane4 even, Lane4 odd)
    {
        var (a, b) = (even._value, odd._value);
        if (Avx2.IsSupported)
        {
            var low = Avx.UnpackLow(a, b);
            var high = Avx.UnpackHigh(a, b);
            Avx.Permute2x128(low, high, 0x20).StoreUnsafe(ref to);
            Avx.Permute2x128(low, high, 0x31).StoreUnsafe(ref to, 4);
            return;
        }

        Vector256.Create(a[0], b[0], a[1], b[1]).StoreUnsafe(ref to);
        Vector256.Create(a[2], b[2], a[3], b[3]).StoreUnsafe(ref to, 4);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void LoadColumns(ref double from, nint stride, out Lane4 a, out Lane4 b, out Lane4 c, out Lane4 d)
    {
        var (p, q, r, s) = Crossed(
            Vector256.LoadUnsafe(ref from),
            Vector256.LoadUnsafe(ref Unsafe.Add(ref from, stride)),
            Vector256.LoadUnsafe(ref Unsafe.Add(ref from, 2 * stride)),
            Vector256.LoadUnsafe(ref Unsafe.Add(ref from, 3 * stride)));
        (a, b, c, d) = (new Lane4(p), new Lane4(q), new Lane4(r), new Lane4(s));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void StoreColumns(ref double to, nint stride, Lane4 a, Lane4 b, Lane4 c, Lane4 d)
    {
        var (p, q, r, s) = Crossed(a._value, b._value, c._value, d._value);
        p.StoreUnsafe(ref to);
        q.StoreUnsafe(ref Unsafe.Add(ref to, stride));
        r.StoreUnsafe(ref Unsafe.Add(ref to, 2 * stride));
        s.StoreUnsafe(ref Unsafe.Add(ref to, 3 * stride));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Reverse(Lane4 value) => new(Vector256.Shuffle(value._value, Vector256.Create(3L, 2, 1, 0)));

    /// <summary>Four rows of four become four columns: moves numbers only.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static (Vector256<double> A, Vector256<double> B, Vector256<double> C, Vector256<double> D) Crossed(
        Vector256<double> a, Vector256<double> b, Vector256<double> c, Vector256<double> d)
    {
        if (!Avx.IsSupported)
        {
            return (
                Vector256.Create(a[0], b[0], c[0], d[0]),
                Vector256.Create(a[1], b[1], c[1], d[1]),
                Vector256.Create(a[2], b[2], c[2], d[2]),
                Vector256.Create(a[3], b[3], c[3], d[3]));
        }

        var (ab, cd) = (Avx.UnpackLow(a, b), Avx.UnpackLow(c, d));
        var (abHigh, cdHigh) = (Avx.UnpackHigh(a, b), Avx.UnpackHigh(c, d));
        return (
            Avx.Permute2x128(ab, cd, 0x20),
            Avx.Permute2x128(abHigh, cdHigh, 0x20),
            Avx.Permute2x128(ab, cd, 0x31),
            Avx.Permute2x128(abHigh, cdHigh, 0x31));
    }
}
