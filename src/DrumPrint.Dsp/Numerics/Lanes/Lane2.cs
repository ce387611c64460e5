using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.Arm;
using System.Runtime.Intrinsics.X86;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>Two doubles in one 128-bit register.</summary>
internal readonly partial struct Lane2(Vector128<double> value) : ILaneBits<Lane2>, ILaneMoves<Lane2>
{
    private readonly Vector128<double> _value = value;

    public static int Count => 2;

    public static bool IsFast => AdvSimd.Arm64.IsSupported;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Of(double value) => new(Vector128.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static implicit operator Lane2(double value) => Of(value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 operator +(Lane2 a, Lane2 b) => new(a._value + b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 operator -(Lane2 a, Lane2 b) => new(a._value - b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 operator *(Lane2 a, Lane2 b) => new(a._value * b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 operator /(Lane2 a, Lane2 b) => new(a._value / b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 operator -(Lane2 a) => new(-a._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Fma(Lane2 a, Lane2 b, Lane2 c) => new(Vector128.FusedMultiplyAdd(a._value, b._value, c._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 FmaNegated(Lane2 a, Lane2 b, Lane2 c) => new(Vector128.FusedMultiplyAdd(-a._value, b._value, c._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Lesser(Lane2 a, Lane2 b) => new(Sse2.IsSupported
        ? Sse2.Min(a._value, b._value)
        : Vector128.ConditionalSelect(Vector128.LessThan(a._value, b._value), a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Greater(Lane2 a, Lane2 b) => new(Sse2.IsSupported
        ? Sse2.Max(a._value, b._value)
        : Vector128.ConditionalSelect(Vector128.GreaterThan(a._value, b._value), a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Max(Lane2 a, Lane2 b) => new(Vector128.Max(a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Abs(Lane2 a) => new(Vector128.Abs(a._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Round(Lane2 a) => new(Vector128.Round(a._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Less(Lane2 a, Lane2 b) => new(Vector128.LessThan(a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 LessOrEqual(Lane2 a, Lane2 b) => new(Vector128.LessThanOrEqual(a._value, b._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllLess(Lane2 a, Lane2 b) => Vector128.LessThanAll(a._value, b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AnyBits(Lane2 a) => a._value.AsInt64() != Vector128<long>.Zero;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Greatest(Lane2 a) => Math.Max(a._value.GetElement(0), a._value.GetElement(1));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Least(Lane2 a) => Math.Min(a._value.GetElement(0), a._value.GetElement(1));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 WhereLess(Lane2 a, Lane2 b, Lane2 then, Lane2 otherwise) =>
        new(Vector128.ConditionalSelect(Vector128.LessThan(a._value, b._value), then._value, otherwise._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Sqrt(Lane2 a) => new(Vector128.Sqrt(a._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllWithin(Lane2 x, double low, double high) =>
        Vector128.GreaterThanOrEqualAll(x._value, Vector128.Create(low)) && Vector128.LessThanOrEqualAll(x._value, Vector128.Create(high));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 FromBits(long bits) => new(Vector128.Create(bits).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 AddBits(Lane2 a, Lane2 b) => new((a._value.AsInt64() + b._value.AsInt64()).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 AndBits(Lane2 a, Lane2 b) => new(a._value & b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 OrBits(Lane2 a, Lane2 b) => new(a._value | b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 XorBits(Lane2 a, Lane2 b) => new(a._value ^ b._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 ShiftBitsLeft(Lane2 a, int count) => new((a._value.AsInt64() << count).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 ShiftBitsRight(Lane2 a, int count) => new((a._value.AsInt64() >>> count).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 ChooseByLowestBit(Lane2 bits, Lane2 odd, Lane2 even)
    {
        var isEven = Vector128.Equals(bits._value.AsInt64() & Vector128.Create(1L), Vector128<long>.Zero).AsDouble();
        return new(Vector128.ConditionalSelect(isEven, even._value, odd._value));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Load(ref readonly double first) => new(Vector128.LoadUnsafe(in first));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref double first) => _value.StoreUnsafe(ref first);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane2 Load(ref readonly double first, nint index) => new(Vector128.LoadUnsafe(in first, (nuint)index));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref double first, nint index) => _value.StoreUnsafe(ref first, (nuint)index);
}
