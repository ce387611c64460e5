using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The part of a way that lies within a curve's knees at −1 and 1; beyond them the curve is level.</summary>
internal static class PartWithin
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Held<T>(T x)
        where T : struct, ILaneBits<T> => T.Greater(T.Lesser(x, 1), -1);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Size<T>(T x)
        where T : struct, ILaneBits<T> => T.AndBits(x, T.FromBits(long.MaxValue));

    /// <summary>Finds the part of the way from a to b = a + d.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static PartWithin<T> Of<T>(T a, T heldA, T b, T heldB, T d)
        where T : struct, ILaneBits<T>
    {
        // A way of no length counts as within, where its one value is held.
        var size = Size(d);
        var inverse = (T)1 / T.WhereLess(0, size, d, 1);
        var width = T.WhereLess(0, size, (heldB - heldA) * inverse, 1);
        var (beyondA, beyondB) = (a - heldA, b - heldB);
        return new PartWithin<T>(width, (beyondA + beyondB) * (inverse * -0.5), (Size(beyondB) - Size(beyondA)) * inverse);
    }
}

/// <param name="Width">Its share of the way, 0 to 1.</param>
/// <param name="Middle">Where its middle lies, from −½ to ½.</param>
/// <param name="Outside">What the rest of the way adds to the mean of a curve that is level at 1 there.</param>
internal readonly record struct PartWithin<T>(T Width, T Middle, T Outside)
    where T : struct, ILaneBits<T>;
