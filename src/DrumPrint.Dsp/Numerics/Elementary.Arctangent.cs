namespace DrumPrint.Dsp.Numerics;

public static partial class Elementary
{
    private static readonly DoubleDouble AtanOfHalf = new(0.4636476090008061, 2.2698777452961687e-17);
    private static readonly DoubleDouble QuarterPi = new(0.7853981633974483, 3.061616997868383e-17);
    private static readonly DoubleDouble HalfPi = new(SineKernel.HalfPiHigh, SineKernel.HalfPiMiddle);

    /// <summary>Angle in radians, −π/2 to π/2, whose tangent is <paramref name="x"/>, any x; within 0.6 ulp.</summary>
    /// <remarks>Beyond 1 it is π/2 less the angle of 1/x. From ¼ up it is the angle of ½ or of 1 plus that of the
    /// difference, (u − c)/(1 + u·c). So the series (a minimax polynomial, error under 2⁻⁶³) sees at most ¼.</remarks>
    public static double Atan(double x)
    {
        if (x == 0 || double.IsNaN(x))
        {
            return x;
        }

        var size = Math.Abs(x);
        var isSteep = size > 1;
        var u = isSteep ? Reciprocal(size) : size;
        var (c, angle) = u.High switch
        {
            < 0.25 => (0.0, (DoubleDouble)0),
            <= 0.75 => (0.5, AtanOfHalf),
            _ => (1.0, QuarterPi),
        };
        var t = c == 0 ? u : (u + -c) / ((u * c) + 1);
        var z = t.High * t.High;
        var p = -0.03999734453405174;
        p = Math.FusedMultiplyAdd(p, z, 0.057248316246775656);
        p = Math.FusedMultiplyAdd(p, z, -0.06655521364948394);
        p = Math.FusedMultiplyAdd(p, z, 0.07691827642541453);
        p = Math.FusedMultiplyAdd(p, z, -0.09090896295965224);
        p = Math.FusedMultiplyAdd(p, z, 0.11111110904801205);
        p = Math.FusedMultiplyAdd(p, z, -0.14285714283833117);
        p = Math.FusedMultiplyAdd(p, z, 0.19999999999991613);
        p = Math.FusedMultiplyAdd(p, z, -0.3333333333333332);
        var part = DoubleDouble.FastSum(t.High, Math.FusedMultiplyAdd(p * z, t.High, t.Low));
        var whole = isSteep ? HalfPi + -(angle + part) : angle + part;
        return Math.CopySign(whole.High, x);
    }

    private static DoubleDouble Reciprocal(double x)
    {
        var high = 1 / x;
        return double.IsInfinity(x) ? high : new DoubleDouble(high, Math.FusedMultiplyAdd(-high, x, 1) * high);
    }
}
