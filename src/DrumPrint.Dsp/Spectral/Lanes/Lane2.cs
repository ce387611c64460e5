using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Spectral.Lanes;

/// <summary>Two numbers in a 128-bit register.</summary>
internal readonly struct Lane2(Vector128<double> value) : ILane<Lane2>
{
    private readonly Vector128<double> _value = value;

    public static int Width => 2;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Of(double value) => new(Vector128.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Load(ref double from) => new(Vector128.LoadUnsafe(ref from));

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
    public static Lane2 Reverse(Lane2 value) => new(Vector128.Shuffle(value._value, Vector128.Create(1L, 0)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref double to) => _value.StoreUnsafe(ref to);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 operator +(Lane2 a, Lane2 b) => new(a._value + b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 operator -(Lane2 a, Lane2 b) => new(a._value - b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 operator *(Lane2 a, Lane2 b) => new(a._value * b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Fma(Lane2 a, Lane2 b, Lane2 c) => new(Vector128.FusedMultiplyAdd(a._value, b._value, c._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 FmaNegated(Lane2 a, Lane2 b, Lane2 c) => new(Vector128.FusedMultiplyAdd(-a._value, b._value, c._value));
}
