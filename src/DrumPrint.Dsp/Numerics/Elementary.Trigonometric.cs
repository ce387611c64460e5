using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

public static partial class Elementary
{
    /// <summary>Sine of an angle in radians, any x; within 0.8 ulp, NaN for ±∞.</summary>
    public static double Sin(double x) => SinCos(x).Sin;

    /// <summary>Cosine of an angle in radians, any x; within 0.8 ulp, NaN for ±∞.</summary>
    public static double Cos(double x) => SinCos(x).Cos;

    /// <summary>Sine and cosine of an angle in radians, any x; within 0.8 ulp, NaN for ±∞.</summary>
    public static (double Sin, double Cos) SinCos(double x)
    {
        var (r, low, k) = Reduce(Math.Abs(x));
        var (sin, cos) = SineKernel.Turn(SineKernel.Sin(r, low), SineKernel.Cos(r, low), k);
        return (double.IsNegative(x) ? -sin.Value : sin.Value, cos.Value);
    }

    /// <summary>Tangent of an angle in radians, any x; within 0.9 ulp, NaN for ±∞.</summary>
    public static double Tan(double x)
    {
        if (x == 0)
        {
            return x;
        }

        var (r, low, k) = Reduce(Math.Abs(x));
        var (sinMain, sinRest) = SineKernel.Sin(r, low);
        var (cosMain, cosRest) = SineKernel.Cos(r, low);
        var sin = DoubleDouble.FastSum(sinMain.Value, sinRest.Value);
        var cos = DoubleDouble.FastSum(cosMain.Value, cosRest.Value);
        var isOdd = (BitConverter.DoubleToInt64Bits(k.Value) & 1) != 0;
        var tan = (isOdd ? -cos / sin : sin / cos).High;
        return double.IsNegative(x) ? -tan : tan;
    }

    private static (Lane1 Remainder, Lane1 Low, Lane1 QuarterTurns) Reduce(double x) =>
        x <= SineKernel.Limit ? SineKernel.Reduce<Lane1>(x) : LargeAngle.Reduce(x);
}
