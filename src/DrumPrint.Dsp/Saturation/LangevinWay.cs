using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Saturation;

/// <summary>What Langevin's function comes to on the way from one field to another. It gives its mean, and its mean weighted with
/// the place s on the way, from −½ to ½. How far the way strays from even counts for the mean by the function's slope, to first
/// order.</summary>
/// <remarks>On a short way it goes by the cubic through the ends with the curve's slopes there, good to 10⁻⁵. On a long one it
/// goes by divided differences of the two antiderivatives (Parker, Zavalishin and Le Bivic, DAFx-16). These cancel little
/// there.</remarks>
internal static class LangevinWay
{
    /// <summary>A way is short up to this, or up to this part of the lesser field.</summary>
    public const double Short = 0.5;

    private const double ShortPart = 1.0 / 16;

    /// <summary>A short way.</summary>
    /// <param name="d">From one field to the other.</param>
    /// <param name="bulge">How far the way strays from even: by this times ¼ − s².</param>
    /// <param name="curveA">The function where it begins.</param>
    /// <param name="curveB">The function where it ends.</param>
    /// <param name="slopeA">Its slope where the way begins.</param>
    /// <param name="slopeB">Its slope where the way ends.</param>
    /// <param name="mean">Its mean.</param>
    /// <param name="tilt">Its mean weighted with s.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void OfShort<T>(T d, T bulge, T curveA, T curveB, T slopeA, T slopeB, out T mean, out T tilt)
        where T : struct, ILaneBits<T>
    {
        var slopes = (slopeA + slopeB) * (1.0 / 12);
        mean = T.Fma(d, (slopeA - slopeB) * (1.0 / 12), T.Fma(bulge, slopes, (curveA + curveB) * 0.5));
        tilt = T.Fma(d, slopes * -0.1, (curveB - curveA) * 0.1);
    }

    /// <summary>Puts the figures of <see cref="OfShort"/> right where the way is long.</summary>
    [MethodImpl(MethodImplOptions.NoInlining | MethodImplOptions.AggressiveOptimization)]
    public static void OfLong<T>(ref readonly T a, ref readonly T b, ref readonly T bulge, ref readonly Antiderivatives<T> atA, ref readonly Antiderivatives<T> atB, ref T mean, ref T tilt)
        where T : struct, ILaneBits<T>
    {
        var d = b - a;
        var end = T.Greater(Short, T.Lesser(Langevin.Size(a), Langevin.Size(b)) * ShortPart);
        var size = Langevin.Size(d);
        var inverse = (T)1 / T.WhereLess(end, size, d, 1);
        var slanted = T.Fma(atA.Second - atB.Second, inverse, (atA.First + atB.First) * 0.5) * inverse;
        var straight = (atB.First - atA.First) * inverse;
        mean = T.WhereLess(end, size, T.Fma(bulge * 2, slanted * inverse, straight), mean);
        tilt = T.WhereLess(end, size, slanted, tilt);
    }

    /// <summary>The function's slope, 1 − L² − 2L/x.</summary>
    /// <param name="curve">L.</param>
    /// <param name="ratio">L/x.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Slope<T>(T curve, T ratio)
        where T : struct, ILaneBits<T> => T.Fma(-curve, curve, T.Fma(ratio, -2, 1));
}
