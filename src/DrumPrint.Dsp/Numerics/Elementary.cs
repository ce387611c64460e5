namespace DrumPrint.Dsp.Numerics;

/// <summary>
/// The elementary functions of the signal path, built from + − × ÷ √ and explicit fused multiply-add only, so that
/// every machine computes the same bits.
/// </summary>
/// <remarks>
/// Errors are stated in ulp, the distance between neighbouring doubles at the true value. They hold on the whole range
/// a function names, subnormal results included. NaN gives NaN, and odd functions keep the sign of zero. The values the
/// bounds are held against are in fixtures/numerics.
/// </remarks>
public static partial class Elementary
{
    private const double SmallestNormal = 2.2250738585072014e-308;

    private static double PowerOfTwo(int exponent) => BitConverter.Int64BitsToDouble((long)(1023 + exponent) << 52);
}
