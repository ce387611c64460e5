using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>Eight doubles in one 512-bit register.</summary>
internal readonly partial struct Lane8(Vector512<double> value) : ILaneBits<Lane8>, ILaneMoves<Lane8>
{
    private readonly Vector512<double> _value = value;

    public static int Count => 8;

    public static bool IsFast => Vector512.IsHardwareAccelerated;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Of(double value) => new(Vector512.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static implicit operator Lane8(double value) => Of(value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 operator +(Lane8 a, Lane8 b) => new(a._value + b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 operator -(Lane8 a, Lane8 b) => new(a._value - b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 operator *(Lane8 a, Lane8 b) => new(a._value * b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 operator /(Lane8 a, Lane8 b) => new(a._value / b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 operator -(Lane8 a) => new(-a._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Fma(Lane8 a, Lane8 b, Lane8 c) => new(Vector512.FusedMultiplyAdd(a._value, b._value, c._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 FmaNegated(Lane8 a, Lane8 b, Lane8 c) =>
        new(Avx512F.IsSupported ? Avx512F.FusedMultiplyAddNegated(a._value, b._value, c._value) : Vector512.FusedMultiplyAdd(-a._value, b._value, c._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Lesser(Lane8 a, Lane8 b) => new(Avx512F.IsSupported
        ? Avx512F.Min(a._value, b._value)
        : Vector512.ConditionalSelect(Vector512.LessThan(a._value, b._value), a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Greater(Lane8 a, Lane8 b) => new(Avx512F.IsSupported
        ? Avx512F.Max(a._value, b._value)
        : Vector512.ConditionalSelect(Vector512.GreaterThan(a._value, b._value), a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Max(Lane8 a, Lane8 b) => new(Vector512.Max(a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Abs(Lane8 a) => new(Vector512.Abs(a._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Round(Lane8 a) => new(Vector512.Round(a._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Less(Lane8 a, Lane8 b) => new(Vector512.LessThan(a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 LessOrEqual(Lane8 a, Lane8 b) => new(Vector512.LessThanOrEqual(a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllLess(Lane8 a, Lane8 b) => Vector512.LessThanAll(a._value, b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AnyBits(Lane8 a) => a._value.AsInt64() != Vector512<long>.Zero;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Greatest(Lane8 a) => Lane4.Greatest(new(Vector256.Max(a._value.GetLower(), a._value.GetUpper())));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Least(Lane8 a) => Lane4.Least(new(Vector256.Min(a._value.GetLower(), a._value.GetUpper())));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 WhereLess(Lane8 a, Lane8 b, Lane8 then, Lane8 otherwise) =>
        new(Vector512.ConditionalSelect(Vector512.LessThan(a._value, b._value), then._value, otherwise._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Sqrt(Lane8 a) => new(Vector512.Sqrt(a._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllWithin(Lane8 x, double low, double high) =>
        Vector512.GreaterThanOrEqualAll(x._value, Vector512.Create(low)) && Vector512.LessThanOrEqualAll(x._value, Vector512.Create(high));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 FromBits(long bits) => new(Vector512.Create(bits).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 AddBits(Lane8 a, Lane8 b) => new((a._value.AsInt64() + b._value.AsInt64()).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 AndBits(Lane8 a, Lane8 b) => new(a._value & b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 OrBits(Lane8 a, Lane8 b) => new(a._value | b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 XorBits(Lane8 a, Lane8 b) => new(a._value ^ b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 ShiftBitsLeft(Lane8 a, int count) => new((a._value.AsInt64() << count).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 ShiftBitsRight(Lane8 a, int count) => new((a._value.AsInt64() >>> count).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 ChooseByLowestBit(Lane8 bits, Lane8 odd, Lane8 even)
    {
        var isEven = Vector512.Equals(bits._value.AsInt64() & Vector512.Create(1L), Vector512<long>.Zero).AsDouble();
        return new(Vector512.ConditionalSelect(isEven, even._value, odd._value));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Load(ref readonly double first) => new(Vector512.LoadUnsafe(in first));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref double first) => _value.StoreUnsafe(ref first);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Load(ref readonly double first, nint index) => new(Vector512.LoadUnsafe(in first, (nuint)index));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref double first, nint index) => _value.StoreUnsafe(ref first, (nuint)index);
}
