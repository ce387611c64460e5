using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <content>The moves of eight numbers.</content>
internal readonly partial struct Lane8
{
    private Lane4 Lower => new(_value.GetLower());

    private Lane4 Upper => new(_value.GetUpper());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void LoadPairs(ref double from, out Lane8 even, out Lane8 odd)
    {
        var a = Vector512.LoadUnsafe(ref from);
        var b = Vector512.LoadUnsafe(ref from, 8);
        if (Avx512F.IsSupported)
        {
            even = new Lane8(Avx512F.PermuteVar8x64x2(a, Vector512.Create(0L, 2, 4, 6, 8, 10, 12, 14), b));
            odd = new Lane8(Avx512F.PermuteVar8x64x2(a, Vector512.Create(1L, 3, 5, 7, 9, 11, 13, 15), b));
            return;
        }

        even = new Lane8(Vector512.Create(a[0], a[2], a[4], a[6], b[0], b[2], b[4], b[6]));
        odd = new Lane8(Vector512.Create(a[1], a[3], a[5], a[7], b[1], b[3], b[5], b[7]));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void StorePairs(ref double to, Lane8 even, Lane8 odd)
    {
        var (a, b) = (even._value, odd._value);
        if (Avx512F.IsSupported)
        {
            Avx512F.PermuteVar8x64x2(a, Vector512.Create(0L, 8, 1, 9, 2, 10, 3, 11), b).StoreUnsafe(ref to);
            Avx512F.PermuteVar8x64x2(a, Vector512.Create(4L, 12, 5, 13, 6, 14, 7, 15), b).StoreUnsafe(ref to, 8);
            return;
        }

        Vector512.Create(a[0], b[0], a[1], b[1], a[2], b[2], a[3], b[3]).StoreUnsafe(ref to);
        Vector512.Create(a[4], b[4], a[5], b[5], a[6], b[6], a[7], b[7]).StoreUnsafe(ref to, 8);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void LoadColumns(ref double from, nint stride, out Lane8 a, out Lane8 b, out Lane8 c, out Lane8 d)
    {
        Lane4.LoadColumns(ref from, stride, out var p, out var q, out var r, out var s);
        Lane4.LoadColumns(ref Unsafe.Add(ref from, 4 * stride), stride, out var t, out var u, out var v, out var w);
        (a, b, c, d) = (Of(p, t), Of(q, u), Of(r, v), Of(s, w));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void StoreColumns(ref double to, nint stride, Lane8 a, Lane8 b, Lane8 c, Lane8 d)
    {
        Lane4.StoreColumns(ref to, stride, a.Lower, b.Lower, c.Lower, d.Lower);
        Lane4.StoreColumns(ref Unsafe.Add(ref to, 4 * stride), stride, a.Upper, b.Upper, c.Upper, d.Upper);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Reverse(Lane8 value) => new(Vector512.Shuffle(value._value, Vector512.Create(7L, 6, 5, 4, 3, 2, 1, 0)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Lane8 Of(Lane4 lower, Lane4 upper) => new(Vector512.Create(lower.Value, upper.Value));
}
