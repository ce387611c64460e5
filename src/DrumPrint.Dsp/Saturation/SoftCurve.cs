using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Saturation;

/// <summary>x / √(1 + x²): bends from the start and never quite arrives.</summary>
/// <remarks>
/// With x = sinh u, a way from u₀ − δ to u₀ + δ has the mean tanh u₀. Its divided difference is (a + b)/(√(1 + a²) + √(1 + b²)).
/// Slope and bend are closed forms too. With C = cosh δ, S = sinh δ and B = cosh u₀ they are (SC − δ)/(4B³S³) and −tanh u₀ · d ·
/// 3(S + S³/3 − Cδ)/(16B⁴S⁵). What there is of δ in them is two functions of S² alone. Here they are ratios of polynomials. Up to
/// S² = 100 they are good to 1.2·10⁻⁴ and 4·10⁻³ of them, and beyond they are near their limit. Weights of corrections that small
/// need no more digits, and no branch is left.
/// </remarks>
internal readonly struct SoftCurve : ICurve
{
    public static double Knee => 1;

    /// <summary>√(1 + x²), which is cosh u and the curve's antiderivative.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Share<T>(T x)
        where T : struct, ILaneBits<T> => T.Sqrt(T.Fma(x, x, 1));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Way<T>(T a, T shareA, T b, T shareB, T d, out T mean, out T slope, out T bend)
        where T : struct, ILaneBits<T>
    {
        // cosh 2δ; less 1 it is 2S². Far out, where it is lost in rounding, the curve is flat.
        var cosh = T.Fma(-a, b, shareA * shareB);
        var p = T.Greater(cosh - 1, 0);
        var q = T.Fma(T.Fma(T.Fma(0.0017942518780624681, p, 0.088015556214712085), p, 0.6314980328405065), p, 1);
        var forSlope = T.Fma(T.Fma(0.00089374596613022980 / 4, p, 0.038704086292509573 / 4), p, 1.0 / 24);
        var forBend = T.Fma(T.Fma(-0.00022068787298243090 / 6, p, -0.0084286372867714680 / 6), p, -1.0 / 240);

        // One division for both.
        var sum = shareA + shareB;
        var both = (T)1 / (sum * q);
        var inverse = q * both;
        mean = (a + b) * inverse;
        var level = T.Fma(-mean, mean, 1);
        var part = level * (sum * both);
        slope = T.Fma(cosh, inverse, inverse) * (forSlope * part);
        bend = (d * mean) * level * (forBend * part);
    }

    public static double Slope(double x) => 1 / ((1 + (x * x)) * Math.Sqrt(1 + (x * x)));
}
