using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

/// <summary>Takes angles too large for <see cref="SineKernel"/> down to ±π/4 (the method of Payne and Hanek, 1983).</summary>
/// <remarks>
/// x·2/π is needed modulo 4 only. So the 192 digits of 2/π that follow the first one to matter are enough. The fraction
/// that is left has an absolute error under 2⁻¹²⁷. No double comes within 2⁻⁶² of a multiple of π/2.
/// </remarks>
internal static class LargeAngle
{
    private static readonly DoubleDouble HalfPi = new(SineKernel.HalfPiHigh, SineKernel.HalfPiMiddle);

    // 64 noughts, then 2/π from the binary point on.
    private static readonly ulong[] TwoOverPi =
    [
        0x0000_0000_0000_0000,
        0xA2F9_836E_4E44_1529,
        0xFC27_57D1_F534_DDC0,
        0xDB62_9599_3C43_9041,
        0xFE51_63AB_DEBB_C561,
        0xB724_6E3A_424D_D2E0,
        0x0649_2EEA_09D1_921C,
        0xFE1D_EB1C_B129_A73E,
        0xE882_35F5_2EBB_4484,
        0xE99C_7026_B45F_7E41,
        0x3991_D639_8353_39F4,
        0x9C84_5F8B_BDF9_283B,
        0x1FF8_97FF_DE05_980F,
        0xEF2F_118B_5A0A_6D1F,
        0x6D36_7ECF_27CB_09B7,
        0x4F46_3F66_9E5F_EA2D,
        0x7527_BAC7_EBE5_F17B,
        0x3D07_39F7_8A52_92EA,
        0x6BFB_5FB1_1F8D_5D08,
        0x5603_3046_FC7B_6BAB,
        0xF0CF_BC20_9AF4_361D,
    ];

    /// <summary>r in two parts and the quarter turns, for x > 2³⁰.</summary>
    public static (Lane1 Remainder, Lane1 Low, Lane1 QuarterTurns) Reduce(double x)
    {
        if (!double.IsFinite(x))
        {
            return (double.NaN, double.NaN, 0);
        }

        var bits = BitConverter.DoubleToInt64Bits(x);
        var exponent = (int)(bits >> 52) - 1075;
        var significand = (ulong)(bits & 0x000F_FFFF_FFFF_FFFF) | 0x0010_0000_0000_0000;

        // The first digit kept weighs 2 once multiplied by 2^exponent; 192 bits of the product count from there.
        var start = exponent + 62;
        var product = new UInt128(significand * Digits(start), 0);
        product += (UInt128)significand * Digits(start + 64);
        product += ((UInt128)significand * Digits(start + 128)) >> 64;

        var turns = (ulong)(product >> 126);
        var fraction = (Int128)(product << 2);
        turns += fraction < 0 ? 1UL : 0;
        var part = ToDoubleDouble((UInt128)(fraction < 0 ? -fraction : fraction)) * HalfPi;
        return fraction < 0
            ? (-part.High, -part.Low, BitConverter.UInt64BitsToDouble(turns))
            : (part.High, part.Low, BitConverter.UInt64BitsToDouble(turns));
    }

    private static ulong Digits(int start)
    {
        var (word, shift) = Math.DivRem(start, 64);
        return shift == 0 ? TwoOverPi[word] : (TwoOverPi[word] << shift) | (TwoOverPi[word + 1] >> (64 - shift));
    }

    // 128 binary places as a number below 1.
    private static DoubleDouble ToDoubleDouble(UInt128 places)
    {
        var zeros = (int)UInt128.LeadingZeroCount(places);
        places <<= zeros;
        var scale = BitConverter.Int64BitsToDouble((long)(1023 - zeros) << 52);
        var high = (ulong)(places >> 75) * (1.0 / (1L << 53));
        var low = ((ulong)(places >> 22) & ((1UL << 53) - 1)) * (1.0 / (1L << 53)) * (1.0 / (1L << 53));
        return new(high * scale, low * scale);
    }
}
