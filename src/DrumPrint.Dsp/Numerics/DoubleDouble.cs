using System.Runtime.CompilerServices;

namespace DrumPrint.Dsp.Numerics;

/// <summary>A number as the sum of two doubles, good to about 2⁻¹⁰⁰: for what is worked out once, not per sample.</summary>
/// <remarks>Error-free sums and products (Dekker 1971, Knuth), the product by fused multiply-add.</remarks>
internal readonly record struct DoubleDouble(double High, double Low)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static implicit operator DoubleDouble(double value) => new(value, 0);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static DoubleDouble operator +(DoubleDouble a, DoubleDouble b)
    {
        var high = Sum(a.High, b.High);
        var low = Sum(a.Low, b.Low);
        var once = FastSum(high.High, high.Low + low.High);
        return FastSum(once.High, once.Low + low.Low);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static DoubleDouble operator -(DoubleDouble a) => new(-a.High, -a.Low);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static DoubleDouble operator *(DoubleDouble a, DoubleDouble b)
    {
        var product = Product(a.High, b.High);
        return FastSum(product.High, product.Low + Math.FusedMultiplyAdd(a.High, b.Low, a.Low * b.High));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static DoubleDouble operator /(DoubleDouble a, DoubleDouble b)
    {
        var first = a.High / b.High;
        var rest = a + -(b * first);
        return FastSum(first, rest.High / b.High);
    }

    /// <summary>a + b without loss.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static DoubleDouble Sum(double a, double b)
    {
        var sum = a + b;
        var back = sum - a;
        return new(sum, (a - (sum - back)) + (b - back));
    }

    /// <summary>a + b without loss, where a is 0 or not the lesser in size.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static DoubleDouble FastSum(double a, double b)
    {
        var sum = a + b;
        return new(sum, (a - sum) + b);
    }

    /// <summary>a · b without loss, short of underflow.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static DoubleDouble Product(double a, double b)
    {
        var product = a * b;
        return new(product, Math.FusedMultiplyAdd(a, b, -product));
    }
}
