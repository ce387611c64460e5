using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>Eight doubles in one 512-bit register.</summary>
internal readonly partial struct Lane8(Vector512<double> value) : ILaneMoves<Lane8>
{
    private readonly Vector512<double> _value = value;

    public static int Count => 8;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Of(double value) => new(Vector512.Create(value));

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
    public static Lane8 Load(ref readonly double first) => new(Vector512.LoadUnsafe(in first));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref double first) => _value.StoreUnsafe(ref first);
}
