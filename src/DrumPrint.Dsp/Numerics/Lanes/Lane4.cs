using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using X86Fma = System.Runtime.Intrinsics.X86.Fma;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>Four doubles in one 256-bit register.</summary>
internal readonly partial struct Lane4(Vector256<double> value) : ILaneBits<Lane4>, ILaneMoves<Lane4>
{
    private readonly Vector256<double> _value = value;

    public static int Count => 4;

    public Vector256<double> Value => _value;

    public static bool IsFast => Vector256.IsHardwareAccelerated && X86Fma.IsSupported;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Of(double value) => new(Vector256.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static implicit operator Lane4(double value) => Of(value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 operator +(Lane4 a, Lane4 b) => new(a._value + b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 operator -(Lane4 a, Lane4 b) => new(a._value - b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 operator *(Lane4 a, Lane4 b) => new(a._value * b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 operator /(Lane4 a, Lane4 b) => new(a._value / b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 operator -(Lane4 a) => new(-a._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Fma(Lane4 a, Lane4 b, Lane4 c) => new(Vector256.FusedMultiplyAdd(a._value, b._value, c._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 FmaNegated(Lane4 a, Lane4 b, Lane4 c) =>
        new(X86Fma.IsSupported ? X86Fma.MultiplyAddNegated(a._value, b._value, c._value) : Vector256.FusedMultiplyAdd(-a._value, b._value, c._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Lesser(Lane4 a, Lane4 b) => new(Avx.IsSupported
        ? Avx.Min(a._value, b._value)
        : Vector256.ConditionalSelect(Vector256.LessThan(a._value, b._value), a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Greater(Lane4 a, Lane4 b) => new(Avx.IsSupported
        ? Avx.Max(a._value, b._value)
        : Vector256.ConditionalSelect(Vector256.GreaterThan(a._value, b._value), a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Max(Lane4 a, Lane4 b) => new(Vector256.Max(a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Abs(Lane4 a) => new(Vector256.Abs(a._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Round(Lane4 a) => new(Vector256.Round(a._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Less(Lane4 a, Lane4 b) => new(Vector256.LessThan(a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 LessOrEqual(Lane4 a, Lane4 b) => new(Vector256.LessThanOrEqual(a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllLess(Lane4 a, Lane4 b) => Vector256.LessThanAll(a._value, b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AnyBits(Lane4 a) => a._value.AsInt64() != Vector256<long>.Zero;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Greatest(Lane4 a) => Lane2.Greatest(new(Vector128.Max(a._value.GetLower(), a._value.GetUpper())));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Least(Lane4 a) => Lane2.Least(new(Vector128.Min(a._value.GetLower(), a._value.GetUpper())));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 WhereLess(Lane4 a, Lane4 b, Lane4 then, Lane4 otherwise) =>
        new(Vector256.ConditionalSelect(Vector256.LessThan(a._value, b._value), then._value, otherwise._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Sqrt(Lane4 a) => new(Vector256.Sqrt(a._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllWithin(Lane4 x, double low, double high) =>
        Vector256.GreaterThanOrEqualAll(x._value, Vector256.Create(low)) && Vector256.LessThanOrEqualAll(x._value, Vector256.Create(high));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 FromBits(long bits) => new(Vector256.Create(bits).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 AddBits(Lane4 a, Lane4 b) => new((a._value.AsInt64() + b._value.AsInt64()).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 AndBits(Lane4 a, Lane4 b) => new(a._value & b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 OrBits(Lane4 a, Lane4 b) => new(a._value | b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 XorBits(Lane4 a, Lane4 b) => new(a._value ^ b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 ShiftBitsLeft(Lane4 a, int count) => new((a._value.AsInt64() << count).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 ShiftBitsRight(Lane4 a, int count) => new((a._value.AsInt64() >>> count).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 ChooseByLowestBit(Lane4 bits, Lane4 odd, Lane4 even)
    {
        var isEven = Vector256.Equals(bits._value.AsInt64() & Vector256.Create(1L), Vector256<long>.Zero).AsDouble();
        return new(Vector256.ConditionalSelect(isEven, even._value, odd._value));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Load(ref readonly double first) => new(Vector256.LoadUnsafe(in first));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref double first) => _value.StoreUnsafe(ref first);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Load(ref readonly double first, nint index) => new(Vector256.LoadUnsafe(in first, (nuint)index));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref double first, nint index) => _value.StoreUnsafe(ref first, (nuint)index);
}
