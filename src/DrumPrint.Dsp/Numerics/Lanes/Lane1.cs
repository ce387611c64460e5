using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>A single double: the scalar form of every kernel.</summary>
internal readonly partial struct Lane1(double value) : ILaneBits<Lane1>, ILaneMoves<Lane1>
{
    public static int Count => 1;

    public static bool IsFast => true;

    public double Value { get; } = value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Of(double value) => new(value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static implicit operator Lane1(double value) => Of(value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 operator +(Lane1 a, Lane1 b) => a.Value + b.Value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 operator -(Lane1 a, Lane1 b) => a.Value - b.Value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 operator *(Lane1 a, Lane1 b) => a.Value * b.Value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 operator /(Lane1 a, Lane1 b) => a.Value / b.Value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 operator -(Lane1 a) => -a.Value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Fma(Lane1 a, Lane1 b, Lane1 c) => Math.FusedMultiplyAdd(a.Value, b.Value, c.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 FmaNegated(Lane1 a, Lane1 b, Lane1 c) => Math.FusedMultiplyAdd(-a.Value, b.Value, c.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Lesser(Lane1 a, Lane1 b) => Sse2.IsSupported
        ? Sse2.MinScalar(Register(a), Register(b)).ToScalar()
        : a.Value < b.Value ? a : b;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Greater(Lane1 a, Lane1 b) => Sse2.IsSupported
        ? Sse2.MaxScalar(Register(a), Register(b)).ToScalar()
        : a.Value > b.Value ? a : b;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Max(Lane1 a, Lane1 b) => Math.Max(a.Value, b.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Abs(Lane1 a) => Math.Abs(a.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Round(Lane1 a) => Math.Round(a.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Less(Lane1 a, Lane1 b) => FromBits(a.Value < b.Value ? -1 : 0);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 LessOrEqual(Lane1 a, Lane1 b) => FromBits(a.Value <= b.Value ? -1 : 0);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllLess(Lane1 a, Lane1 b) => a.Value < b.Value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AnyBits(Lane1 a) => Bits(a) != 0;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Greatest(Lane1 a) => a.Value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Least(Lane1 a) => a.Value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 WhereLess(Lane1 a, Lane1 b, Lane1 then, Lane1 otherwise) => a.Value < b.Value ? then : otherwise;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Sqrt(Lane1 a) => Math.Sqrt(a.Value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllWithin(Lane1 x, double low, double high) => x.Value >= low && x.Value <= high;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 FromBits(long bits) => BitConverter.Int64BitsToDouble(bits);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 AddBits(Lane1 a, Lane1 b) => FromBits(Bits(a) + Bits(b));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 AndBits(Lane1 a, Lane1 b) => (Register(a) & Register(b)).ToScalar();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 OrBits(Lane1 a, Lane1 b) => (Register(a) | Register(b)).ToScalar();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 XorBits(Lane1 a, Lane1 b) => (Register(a) ^ Register(b)).ToScalar();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 ShiftBitsLeft(Lane1 a, int count) => FromBits(Bits(a) << count);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 ShiftBitsRight(Lane1 a, int count) => FromBits(Bits(a) >>> count);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 ChooseByLowestBit(Lane1 bits, Lane1 odd, Lane1 even) => (Bits(bits) & 1) != 0 ? odd : even;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Load(ref readonly double first) => first;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref double first) => first = Value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane1 Load(ref readonly double first, nint index) => Unsafe.Add(ref Unsafe.AsRef(in first), index);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref double first, nint index) => Unsafe.Add(ref first, index) = Value;

    // Kept out of the registers for whole numbers: the way there and back takes as long as the sum.
    private static Vector128<double> Register(Lane1 a) => Vector128.CreateScalarUnsafe(a.Value);

    private static long Bits(Lane1 a) => BitConverter.DoubleToInt64Bits(a.Value);
}
