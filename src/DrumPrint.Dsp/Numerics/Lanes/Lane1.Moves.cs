using System.Runtime.CompilerServices;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <content>The moves of one number.</content>
internal readonly partial struct Lane1
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void LoadPairs(ref double from, out Lane1 even, out Lane1 odd)
    {
        even = new Lane1(from);
        odd = new Lane1(Unsafe.Add(ref from, 1));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void StorePairs(ref double to, Lane1 even, Lane1 odd)
    {
        to = even.Value;
        Unsafe.Add(ref to, 1) = odd.Value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void LoadColumns(ref double from, nint stride, out Lane1 a, out Lane1 b, out Lane1 c, out Lane1 d)
    {
        a = new Lane1(from);
        b = new Lane1(Unsafe.Add(ref from, 1));
        c = new Lane1(Unsafe.Add(ref from, 2));
        d = new Lane1(Unsafe.Add(ref from, 3));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void StoreColumns(ref double to, nint stride, Lane1 a, Lane1 b, Lane1 c, Lane1 d)
    {
        to = a.Value;
        Unsafe.Add(ref to, 1) = b.Value;
        Unsafe.Add(ref to, 2) = c.Value;
        Unsafe.Add(ref to, 3) = d.Value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Reverse(Lane1 value) => value;
}
