using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Resampling;

/// <summary>Weights as polynomials of the place between two input samples, for rates whose table would be huge.</summary>
/// <remarks>Each tap's weight over one sample is met at the Chebyshev points of degree 11; what is left out is below
/// −190 dB.</remarks>
internal sealed class PhasePolynomials : IPhases
{
    private const int Points = 12;

    private readonly int _taps;
    private readonly int _phases;
    private readonly int _lanes;

    // By groups of eight taps, highest power first, eight numbers each.
    private readonly double[] _coefficients;

    public PhasePolynomials(RateFilter filter, int phases, int lanes)
    {
        _taps = 2 * filter.Half;
        _phases = phases;
        _lanes = lanes;
        _coefficients = new double[_taps * Points];
        for (var tap = 0; tap < _taps; tap++)
        {
            var polynomial = Polynomial(place => filter.At(place + filter.Half - 1 - tap));
            for (var power = 0; power < Points; power++)
            {
                var at = (tap / EightSums.Count * EightSums.Count * Points) + ((Points - 1 - power) * EightSums.Count) + (tap % EightSums.Count);
                _coefficients[at] = polynomial[power];
            }
        }
    }

    public double Sum(ReadOnlySpan<double> inputs, int phase)
    {
        var place = (2.0 * phase / _phases) - 1;
        inputs = inputs[.._taps];
        return _lanes switch
        {
            8 => Sum<Lane8>(inputs, place),
            4 => Sum<Lane4>(inputs, place),
            2 => Sum<Lane2>(inputs, place),
            _ => Sum<Lane1>(inputs, place),
        };
    }

    private double Sum<T>(ReadOnlySpan<double> inputs, double place)
        where T : struct, ILane<T>
    {
        // For each power the inputs weighted by its coefficients, and only then the powers: twelve sums that wait for nobody.
        var sums = default(EightSums);
        var s = T.Of(place);
        ref var x = ref MemoryMarshal.GetReference(inputs);
        for (var lane = 0; lane < EightSums.Count; lane += T.Width)
        {
            T a = T.Of(0), b = a, c = a, d = a, e = a, f = a, g = a, h = a, i = a, j = a, k = a, l = a;
            ref var row = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_coefficients), lane);
            for (var tap = lane; tap < _taps; tap += EightSums.Count)
            {
                var input = T.Load(ref Unsafe.Add(ref x, tap));
                a = T.Fma(input, T.Load(ref row), a);
                b = T.Fma(input, T.Load(ref Unsafe.Add(ref row, EightSums.Count)), b);
                c = T.Fma(input, T.Load(ref Unsafe.Add(ref row, 2 * EightSums.Count)), c);
                d = T.Fma(input, T.Load(ref Unsafe.Add(ref row, 3 * EightSums.Count)), d);
                e = T.Fma(input, T.Load(ref Unsafe.Add(ref row, 4 * EightSums.Count)), e);
                f = T.Fma(input, T.Load(ref Unsafe.Add(ref row, 5 * EightSums.Count)), f);
                g = T.Fma(input, T.Load(ref Unsafe.Add(ref row, 6 * EightSums.Count)), g);
                h = T.Fma(input, T.Load(ref Unsafe.Add(ref row, 7 * EightSums.Count)), h);
                i = T.Fma(input, T.Load(ref Unsafe.Add(ref row, 8 * EightSums.Count)), i);
                j = T.Fma(input, T.Load(ref Unsafe.Add(ref row, 9 * EightSums.Count)), j);
                k = T.Fma(input, T.Load(ref Unsafe.Add(ref row, 10 * EightSums.Count)), k);
                l = T.Fma(input, T.Load(ref Unsafe.Add(ref row, 11 * EightSums.Count)), l);
                row = ref Unsafe.Add(ref row, Points * EightSums.Count);
            }

            var sum = T.Fma(a, s, b);
            sum = T.Fma(sum, s, c);
            sum = T.Fma(sum, s, d);
            sum = T.Fma(sum, s, e);
            sum = T.Fma(sum, s, f);
            sum = T.Fma(sum, s, g);
            sum = T.Fma(sum, s, h);
            sum = T.Fma(sum, s, i);
            sum = T.Fma(sum, s, j);
            sum = T.Fma(sum, s, k);
            sum = T.Fma(sum, s, l);
            sum.Store(ref sums[lane]);
        }

        return sums.Total;
    }

    // Powers of s = 2·place − 1, from the Chebyshev series that meets the function at the zeros of T12.
    private static double[] Polynomial(Func<double, double> weight)
    {
        var values = new double[Points];
        for (var point = 0; point < Points; point++)
        {
            values[point] = weight(0.5 + (0.5 * RootOfUnity.At((2 * point) + 1, 4 * Points).Cos));
        }

        var powers = new double[Points];
        var (older, newer) = (new double[Points], new double[Points]);
        newer[0] = 1;
        for (var order = 0; order < Points; order++)
        {
            var c = 0.0;
            for (var point = 0; point < Points; point++)
            {
                c += values[point] * RootOfUnity.At(((2 * point) + 1) * order, 4 * Points).Cos;
            }

            c *= (order == 0 ? 1.0 : 2.0) / Points;
            for (var power = 0; power < Points; power++)
            {
                powers[power] += c * newer[power];
            }

            // T[n + 1] = 2s·T[n] − T[n − 1], and T1 = s.
            var next = new double[Points];
            for (var power = 0; power < Points; power++)
            {
                next[power] = ((order == 0 ? 1 : 2) * (power == 0 ? 0 : newer[power - 1])) - (order == 0 ? 0 : older[power]);
            }

            (older, newer) = (newer, next);
        }

        return powers;
    }
}
