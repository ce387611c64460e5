using System.Numerics;
using System.Runtime.InteropServices;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Levels to decibels and decibels to gains for whole stretches, the same bits at every vector width.</summary>
/// <remarks>
/// <para>Logarithm: x = 2ᵉ m with m from √½ to √2, ln m = 2 atanh((m − 1) / (m + 1)) by its series; error below 10⁻¹² dB.
/// Exponential: the series of 2ʳ for r from −½ to ½, scaled by a power of two; relative error below 10⁻¹⁴.</para>
/// <para>Every lane does the same additions, multiplications, divisions and fused multiply-adds whatever the width, so
/// the width of the machine's vectors never shows. Lengths are multiples of the width: callers keep spare room.</para>
/// </remarks>
internal static class DecibelKernel
{
    /// <summary>Amplitudes and powers below this read as this: −600 dB or −300 dB, far under any threshold.</summary>
    public const double Smallest = 1e-30;

    private const double AmplitudeDbPerOctave = 6.020599913279624;
    private const double AmplitudeDbPerNeper = 8.685889638065037;
    private const double OctavesPerDb = 0.16609640474436813;
    private const double LowestDb = -6000;

    private const long OneBits = 0x3FF0_0000_0000_0000;
    private const long SqrtHalfBits = 0x3FE6_A09E_667F_3BCD;
    private const long MantissaMask = 0x000F_FFFF_FFFF_FFFF;

    // Adding an integer below 2⁵² to these bits gives the double 2⁵² + that integer.
    private const long TwoTo52Bits = 0x4330_0000_0000_0000;
    private const double TwoTo52 = 4503599627370496;

    // Adding 1.5 · 2⁵² leaves no room for a fraction: the sum is rounded, its last bits hold the integer.
    private const double RoundingShift = 6755399441055744;

    /// <summary>Rounds a length up to a whole number of vectors.</summary>
    public static int WholeVectors(int length) => (length + Vector<double>.Count - 1) / Vector<double>.Count * Vector<double>.Count;

    /// <summary>Amplitudes, 0 or more, to decibels, in place.</summary>
    public static void AmplitudeToDecibels(Span<double> values) => ToDecibels(values, AmplitudeDbPerOctave, 2 * AmplitudeDbPerNeper);

    /// <summary>Powers (mean squares), 0 or more, to decibels, in place.</summary>
    public static void PowerToDecibels(Span<double> values) => ToDecibels(values, AmplitudeDbPerOctave / 2, AmplitudeDbPerNeper);

    /// <summary>Decibels by which a level comes down to the gain that does it, in place; 0 gives exactly 1.</summary>
    public static void ReductionToGain(Span<double> values)
    {
        var lowest = new Vector<double>(LowestDb);
        var octaves = new Vector<double>(OctavesPerDb);
        var shift = new Vector<double>(RoundingShift);
        ref var first = ref MemoryMarshal.GetReference(values);
        for (nuint i = 0; i < (nuint)values.Length; i += (nuint)Vector<double>.Count)
        {
            var x = Vector.MaxNative(-Vector.LoadUnsafe(ref first, i), lowest) * octaves;
            var shifted = x + shift;
            var r = x - (shifted - shift);
            var p = new Vector<double>(2.5678435993488206e-11);                                        // (ln 2)¹²/12!
            p = Vector.FusedMultiplyAdd(p, r, new Vector<double>(4.4455382718708116e-10));
            p = Vector.FusedMultiplyAdd(p, r, new Vector<double>(7.054911620801123e-09));
            p = Vector.FusedMultiplyAdd(p, r, new Vector<double>(1.01780860092397e-07));
            p = Vector.FusedMultiplyAdd(p, r, new Vector<double>(1.321548679014431e-06));
            p = Vector.FusedMultiplyAdd(p, r, new Vector<double>(1.5252733804059841e-05));
            p = Vector.FusedMultiplyAdd(p, r, new Vector<double>(0.0001540353039338161));
            p = Vector.FusedMultiplyAdd(p, r, new Vector<double>(0.0013333558146428443));
            p = Vector.FusedMultiplyAdd(p, r, new Vector<double>(0.009618129107628477));
            p = Vector.FusedMultiplyAdd(p, r, new Vector<double>(0.05550410866482158));
            p = Vector.FusedMultiplyAdd(p, r, new Vector<double>(0.24022650695910072));
            p = Vector.FusedMultiplyAdd(p, r, new Vector<double>(0.6931471805599453));
            p = Vector.FusedMultiplyAdd(p, r, Vector<double>.One);
            var exponent = Vector.ShiftLeft(Vector.AsVectorInt64(shifted), 52);
            Vector.AsVectorDouble(Vector.AsVectorInt64(p) + exponent).StoreUnsafe(ref first, i);
        }
    }

    private static void ToDecibels(Span<double> values, double perOctave, double twicePerNeper)
    {
        var smallest = new Vector<double>(Smallest);
        var toMantissa = new Vector<long>(OneBits - SqrtHalfBits);
        var exponentOffset = new Vector<double>(TwoTo52 + 1023);
        ref var first = ref MemoryMarshal.GetReference(values);
        for (nuint i = 0; i < (nuint)values.Length; i += (nuint)Vector<double>.Count)
        {
            var t = Vector.AsVectorInt64(Vector.MaxNative(Vector.LoadUnsafe(ref first, i), smallest)) + toMantissa;
            var m = Vector.AsVectorDouble((t & new Vector<long>(MantissaMask)) + new Vector<long>(SqrtHalfBits));
            var exponent = Vector.AsVectorDouble(Vector.ShiftRightLogical(t, 52) | new Vector<long>(TwoTo52Bits)) - exponentOffset;
            var s = (m - Vector<double>.One) / (m + Vector<double>.One);
            var z = s * s;
            var p = new Vector<double>(1.0 / 17);
            p = Vector.FusedMultiplyAdd(p, z, new Vector<double>(1.0 / 15));
            p = Vector.FusedMultiplyAdd(p, z, new Vector<double>(1.0 / 13));
            p = Vector.FusedMultiplyAdd(p, z, new Vector<double>(1.0 / 11));
            p = Vector.FusedMultiplyAdd(p, z, new Vector<double>(1.0 / 9));
            p = Vector.FusedMultiplyAdd(p, z, new Vector<double>(1.0 / 7));
            p = Vector.FusedMultiplyAdd(p, z, new Vector<double>(1.0 / 5));
            p = Vector.FusedMultiplyAdd(p, z, new Vector<double>(1.0 / 3));
            p = Vector.FusedMultiplyAdd(p, z, Vector<double>.One);
            Vector.FusedMultiplyAdd(exponent, new Vector<double>(perOctave), p * s * new Vector<double>(twicePerNeper)).StoreUnsafe(ref first, i);
        }
    }
}
