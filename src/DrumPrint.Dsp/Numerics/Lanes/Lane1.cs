namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>A single double: the scalar form of every kernel.</summary>
internal readonly struct Lane1(double value) : ILanes<Lane1>
{
    public static int Count => 1;

    public double Value { get; } = value;

    public static implicit operator Lane1(double value) => new(value);

    public static Lane1 operator +(Lane1 a, Lane1 b) => a.Value + b.Value;

    public static Lane1 operator -(Lane1 a, Lane1 b) => a.Value - b.Value;

    public static Lane1 operator *(Lane1 a, Lane1 b) => a.Value * b.Value;

    public static Lane1 operator /(Lane1 a, Lane1 b) => a.Value / b.Value;

    public static Lane1 operator -(Lane1 a) => -a.Value;

    public static Lane1 Fma(Lane1 a, Lane1 b, Lane1 c) => Math.FusedMultiplyAdd(a.Value, b.Value, c.Value);

    public static Lane1 Lesser(Lane1 a, Lane1 b) => a.Value < b.Value ? a : b;

    public static bool AllWithin(Lane1 x, double low, double high) => x.Value >= low && x.Value <= high;

    public static Lane1 FromBits(long bits) => BitConverter.Int64BitsToDouble(bits);

    public static Lane1 AddBits(Lane1 a, Lane1 b) => FromBits(Bits(a) + Bits(b));

    public static Lane1 AndBits(Lane1 a, Lane1 b) => FromBits(Bits(a) & Bits(b));

    public static Lane1 OrBits(Lane1 a, Lane1 b) => FromBits(Bits(a) | Bits(b));

    public static Lane1 XorBits(Lane1 a, Lane1 b) => FromBits(Bits(a) ^ Bits(b));

    public static Lane1 ShiftBitsLeft(Lane1 a, int count) => FromBits(Bits(a) << count);

    public static Lane1 ShiftBitsRight(Lane1 a, int count) => FromBits(Bits(a) >>> count);

    public static Lane1 ChooseByLowestBit(Lane1 bits, Lane1 odd, Lane1 even) => (Bits(bits) & 1) != 0 ? odd : even;

    public static Lane1 Load(ref readonly double first) => first;

    public static void Store(Lane1 value, ref double first) => first = value.Value;

    private static long Bits(Lane1 a) => BitConverter.DoubleToInt64Bits(a.Value);
}
