using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <content>The moves of two numbers.</content>
internal readonly partial struct Lane2
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void LoadPairs(ref double from, out Lane2 even, out Lane2 odd)
    {
        var a = Vector128.LoadUnsafe(ref from);
        var b = Vector128.LoadUnsafe(ref from, 2);
        even = new Lane2(Vector128.Create(a.GetElement(0), b.GetElement(0)));
        odd = new Lane2(Vector128.Create(a.GetElement(1), b.GetElement(1)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void StorePairs(ref double to, Lane2 even, Lane2 odd)
    {
        Vector128.Create(even._value.GetElement(0), odd._value.GetElement(0)).StoreUnsafe(ref to);
        Vector128.Create(even._value.GetElement(1), odd._value.GetElement(1)).StoreUnsafe(ref to, 2);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void LoadColumns(ref double from, nint stride, out Lane2 a, out Lane2 b, out Lane2 c, out Lane2 d)
    {
        LoadCrossed(ref from, stride, out a, out b);
        LoadCrossed(ref Unsafe.Add(ref from, 2), stride, out c, out d);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void StoreColumns(ref double to, nint stride, Lane2 a, Lane2 b, Lane2 c, Lane2 d)
    {
        StoreCrossed(ref to, stride, a, b);
        StoreCrossed(ref Unsafe.Add(ref to, 2), stride, c, d);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Reverse(Lane2 value) => new(Vector128.Shuffle(value._value, Vector128.Create(1L, 0)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void LoadCrossed(ref double from, nint stride, out Lane2 a, out Lane2 b)
    {
        var x = Vector128.LoadUnsafe(ref from);
        var y = Vector128.LoadUnsafe(ref Unsafe.Add(ref from, stride));
        a = new Lane2(Vector128.Create(x.GetElement(0), y.GetElement(0)));
        b = new Lane2(Vector128.Create(x.GetElement(1), y.GetElement(1)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void StoreCrossed(ref double to, nint stride, Lane2 a, Lane2 b)
    {
        Vector128.Create(a._value.GetElement(0), b._value.GetElement(0)).StoreUnsafe(ref to);
        Vector128.Create(a._value.GetElement(1), b._value.GetElement(1)).StoreUnsafe(ref Unsafe.Add(ref to, stride));
    }
}
