using System.Runtime.CompilerServices;

namespace DrumPrint.Dsp.Spectral.Lanes;

/// <summary>One number: the plain form that defines the others.</summary>
internal readonly struct Lane1(double value) : ILane<Lane1>
{
    private readonly double _value = value;

    public static int Width => 1;

    public static Lane1 Of(double value) => new(value);

    public static Lane1 Load(ref double from) => new(from);

    public static void LoadPairs(ref double from, out Lane1 even, out Lane1 odd)
    {
        even = new Lane1(from);
        odd = new Lane1(Unsafe.Add(ref from, 1));
    }

    public static void StorePairs(ref double to, Lane1 even, Lane1 odd)
    {
        to = even._value;
        Unsafe.Add(ref to, 1) = odd._value;
    }

    public static void LoadColumns(ref double from, nint stride, out Lane1 a, out Lane1 b, out Lane1 c, out Lane1 d)
    {
        a = new Lane1(from);
        b = new Lane1(Unsafe.Add(ref from, 1));
        c = new Lane1(Unsafe.Add(ref from, 2));
        d = new Lane1(Unsafe.Add(ref from, 3));
    }

    public static void StoreColumns(ref double to, nint stride, Lane1 a, Lane1 b, Lane1 c, Lane1 d)
    {
        to = a._value;
        Unsafe.Add(ref to, 1) = b._value;
        Unsafe.Add(ref to, 2) = c._value;
        Unsafe.Add(ref to, 3) = d._value;
    }

    public static Lane1 Reverse(Lane1 value) => value;

    public void Store(ref double to) => to = _value;

    public static Lane1 operator +(Lane1 a, Lane1 b) => new(a._value + b._value);

    public static Lane1 operator -(Lane1 a, Lane1 b) => new(a._value - b._value);

    public static Lane1 operator *(Lane1 a, Lane1 b) => new(a._value * b._value);

    public static Lane1 Fma(Lane1 a, Lane1 b, Lane1 c) => new(Math.FusedMultiplyAdd(a._value, b._value, c._value));

    public static Lane1 FmaNegated(Lane1 a, Lane1 b, Lane1 c) => new(Math.FusedMultiplyAdd(-a._value, b._value, c._value));
}
