using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Levels to decibels and decibels to gains for whole stretches, the same bits at every vector width.</summary>
/// <remarks>
/// <para>Logarithm: x = 2ᵉ m with m from √½ to √2, ln m = 2 atanh((m − 1) / (m + 1)) by its series; error below 10⁻¹² dB.
/// Exponential: the series of 2ʳ for r from −½ to ½, scaled by a power of two; relative error below 10⁻¹⁴.</para>
/// <para>Every lane does the same additions, multiplications, divisions and fused multiply-adds whatever the width, so
/// the width of the machine's vectors never shows. Lengths of <see cref="LaneWidth.Whole"/> are the quickest.</para>
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

    // (ln 2)ᵏ/k! from k = 12 down to 0.
    private static readonly double[] PowersOfTwo =
    [
        2.5678435993488206e-11, 4.4455382718708116e-10, 7.054911620801123e-09, 1.01780860092397e-07, 1.321548679014431e-06,
        1.5252733804059841e-05, 0.0001540353039338161, 0.0013333558146428443, 0.009618129107628477, 0.05550410866482158,
        0.24022650695910072, 0.6931471805599453, 1,
    ];

    /// <summary>Amplitudes, 0 or more, to decibels, in place.</summary>
    public static void AmplitudeToDecibels(Span<double> values)
    {
        var kernel = new ToDecibels(values, AmplitudeDbPerOctave, 2 * AmplitudeDbPerNeper);
        Lanewise.Run(ref kernel);
    }

    /// <summary>Powers (mean squares), 0 or more, to decibels, in place.</summary>
    public static void PowerToDecibels(Span<double> values)
    {
        var kernel = new ToDecibels(values, AmplitudeDbPerOctave / 2, AmplitudeDbPerNeper);
        Lanewise.Run(ref kernel);
    }

    /// <summary>Decibels by which a level comes down to the gain that does it, in place; 0 gives exactly 1.</summary>
    public static void ReductionToGain(Span<double> values)
    {
        var kernel = new ToGain(values);
        Lanewise.Run(ref kernel);
    }

    internal readonly ref struct ToGain(Span<double> values) : ILaneKernel
    {
        private readonly ref double _values = ref MemoryMarshal.GetReference(values);

        public nint Length { get; } = values.Length;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref var values = ref _values;
            var (lowest, octaves, shift) = (T.Of(LowestDb), T.Of(OctavesPerDb), T.Of(RoundingShift));
            ref var series = ref MemoryMarshal.GetArrayDataReference(PowersOfTwo);
            var c12 = T.Of(series);
            var c11 = T.Of(Unsafe.Add(ref series, 1));
            var c10 = T.Of(Unsafe.Add(ref series, 2));
            var c9 = T.Of(Unsafe.Add(ref series, 3));
            var c8 = T.Of(Unsafe.Add(ref series, 4));
            var c7 = T.Of(Unsafe.Add(ref series, 5));
            var c6 = T.Of(Unsafe.Add(ref series, 6));
            var c5 = T.Of(Unsafe.Add(ref series, 7));
            var c4 = T.Of(Unsafe.Add(ref series, 8));
            var c3 = T.Of(Unsafe.Add(ref series, 9));
            var c2 = T.Of(Unsafe.Add(ref series, 10));
            var c1 = T.Of(Unsafe.Add(ref series, 11));
            var c0 = T.Of(Unsafe.Add(ref series, 12));
            for (; i <= length - T.Count; i += T.Count)
            {
                var x = T.Greater(-T.Load(in values, i), lowest) * octaves;
                var shifted = x + shift;
                var r = x - (shifted - shift);
                var p = c12;
                p = T.Fma(p, r, c11);
                p = T.Fma(p, r, c10);
                p = T.Fma(p, r, c9);
                p = T.Fma(p, r, c8);
                p = T.Fma(p, r, c7);
                p = T.Fma(p, r, c6);
                p = T.Fma(p, r, c5);
                p = T.Fma(p, r, c4);
                p = T.Fma(p, r, c3);
                p = T.Fma(p, r, c2);
                p = T.Fma(p, r, c1);
                p = T.Fma(p, r, c0);
                T.AddBits(p, T.ShiftBitsLeft(shifted, 52)).Store(ref values, i);
            }

            return i;
        }
    }

    internal readonly ref struct ToDecibels(Span<double> values, double perOctave, double twicePerNeper) : ILaneKernel
    {
        private readonly ref double _values = ref MemoryMarshal.GetReference(values);

        public nint Length { get; } = values.Length;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref var values = ref _values;
            var (octave, neper, smallest, exponentOffset) = (T.Of(perOctave), T.Of(twicePerNeper), T.Of(Smallest), T.Of(TwoTo52 + 1023));
            var (toMantissa, mask, sqrtHalf, twoTo52) = (T.FromBits(OneBits - SqrtHalfBits), T.FromBits(MantissaMask), T.FromBits(SqrtHalfBits), T.FromBits(TwoTo52Bits));
            var (c17, c15, c13, c11, c9) = (T.Of(1.0 / 17), T.Of(1.0 / 15), T.Of(1.0 / 13), T.Of(1.0 / 11), T.Of(1.0 / 9));
            var (c7, c5, c3, one) = (T.Of(1.0 / 7), T.Of(1.0 / 5), T.Of(1.0 / 3), T.Of(1));
            for (; i <= length - T.Count; i += T.Count)
            {
                var t = T.AddBits(T.Greater(T.Load(in values, i), smallest), toMantissa);
                var m = T.AddBits(T.AndBits(t, mask), sqrtHalf);
                var exponent = T.OrBits(T.ShiftBitsRight(t, 52), twoTo52) - exponentOffset;
                var s = (m - one) / (m + one);
                var z = s * s;
                var p = c17;
                p = T.Fma(p, z, c15);
                p = T.Fma(p, z, c13);
                p = T.Fma(p, z, c11);
                p = T.Fma(p, z, c9);
                p = T.Fma(p, z, c7);
                p = T.Fma(p, z, c5);
                p = T.Fma(p, z, c3);
                p = T.Fma(p, z, one);
                T.Fma(exponent, octave, p * s * neper).Store(ref values, i);
            }

            return i;
        }
    }
}
