using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Saturation;

/// <summary>x up to 1, then 1: untouched below full scale, cut off above.</summary>
internal readonly struct HardCurve : ICurve
{
    public static double Knee => 1;

    /// <summary>The input held within full scale: the curve itself.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Share<T>(T x)
        where T : struct, ILaneBits<T> => PartWithin.Held(x);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Way<T>(T a, T shareA, T b, T shareB, T d, out T mean, out T slope, out T bend)
        where T : struct, ILaneBits<T>
    {
        var part = PartWithin.Of(a, shareA, b, shareB, d);
        var sigma = part.Middle;
        var ee = part.Width * part.Width * 0.25;
        mean = T.Fma((shareA + shareB) * 0.5, part.Width, part.Outside);
        var room = T.Fma(-sigma, sigma, 0.25);

        // A way of no length beyond the ceiling counts as within for its mean; it has no slope.
        var width = T.WhereLess(0, PartWithin.Size(a - shareA) - PartWithin.Size(d), 0, part.Width);
        slope = width * 0.25 * T.Fma(ee, -1.0 / 3, room);
        bend = width * (1.0 / 6) * sigma * (room - ee);
    }

    public static double Slope(double x) => 1;
}
