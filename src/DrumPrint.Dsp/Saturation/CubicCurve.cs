using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Saturation;

/// <summary>x − 4x³/27, which arrives at 1 when x = 1.5 and stays there: third harmonic alone until then.</summary>
/// <remarks>In units of its knee it is x − x³/3.</remarks>
internal readonly struct CubicCurve : ICurve
{
    public static double Knee => 1.5;

    /// <summary>The input held within the knee.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Share<T>(T x)
        where T : struct, ILaneBits<T> => PartWithin.Held(x);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Way<T>(T a, T shareA, T b, T shareB, T d, out T mean, out T slope, out T bend)
        where T : struct, ILaneBits<T>
    {
        var part = PartWithin.Of(a, shareA, b, shareB, d);

        // On the part within, x is k + h·v and s is σ + e·v, v from −1 to 1.
        var k = (shareA + shareB) * 0.5;
        var h = (shareB - shareA) * 0.5;
        var (sigma, e) = (part.Middle, part.Width * 0.5);
        var (hh, ee) = (h * h, e * e);
        var peak = T.Fma(-k, k, 1);
        mean = T.Fma(k * T.Fma(hh - peak, -1.0 / 3, 2.0 / 3), part.Width, part.Outside * (2.0 / 3));

        var room = T.Fma(-sigma, sigma, 0.25);
        var tied = k * h * e;
        var (whole, far, near) = (room * peak, room * hh, ee * peak);
        var fifth = ee * hh;
        var third = T.Fma(sigma * tied, 4, -(far + near));
        slope = part.Width * 0.25 * T.Fma(fifth, 0.2, T.Fma(third, 1.0 / 3, whole));
        third = T.Fma(tied, T.Fma(room, 6, -1), sigma * T.Fma(near, 3, far));
        fifth = T.Fma(sigma * 3, fifth, tied * ee * 2);
        bend = part.Width * (1.0 / 6) * T.Fma(fifth, 0.2, T.Fma(third, -1.0 / 3, sigma * whole));
    }

    public static double Slope(double x) => 1 - (x * x * (4.0 / 9));
}
