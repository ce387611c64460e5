using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Filters;

/// <summary>Symmetric taps with the levels of a design and no phase of their own.</summary>
/// <remarks>
/// Frequency sampling: the levels at evenly spaced frequencies, brought back to time and faded out (Oppenheim and Schafer, Discrete-Time
/// Signal Processing, chapter on filter design; from memory). The grid is four times as fine as the taps are long, so that what lies
/// between its lines is seen too. The taps are as short as the levels allow: the first length of those that double which keeps
/// <see cref="NearDb"/>.
/// </remarks>
internal sealed class LinearDesign
{
    /// <summary>How near the levels come, in dB, from 20 Hz to 20 kHz or 0.4535 of the rate, wherever they lie above −80 dB.</summary>
    public const double NearDb = 0.01;

    private const int ShortestCentre = 256;
    private const int Fineness = 8;
    private const double LowestHz = 20;
    private const double HighestHz = 20000;
    private const double HighestPart = 0.4535;
    private const double FloorGain = 1e-4;

    // A ring counts down to −60 dB of its loudest moment.
    private const double Heard = 1e-3;
    private const double Rounding = 1e-12;

    private readonly double[] _half;

    private LinearDesign(double[] half, int sampleRate)
    {
        _half = half;
        var loudest = half[1..].Max(Math.Abs);
        RingMs = loudest < Rounding ? 0 : 1000.0 * Array.FindLastIndex(half, h => Math.Abs(h) >= Heard * loudest) / sampleRate;
    }

    /// <summary>Frames from the first tap to the middle one.</summary>
    public int Centre => _half.Length - 1;

    /// <summary>For how many milliseconds before a click, and after it, it rings: down to 60 dB under the ring's loudest moment. 0 where
    /// nothing rings.</summary>
    public double RingMs { get; }

    /// <summary>The taps for a design; null where they would reach further than <paramref name="longestCentre"/> frames to each side.</summary>
    public static LinearDesign? Of(CorrectedDesign design, int sampleRate, int longestCentre) => Of(fft => Levels(design, fft), sampleRate, longestCentre);

    /// <summary>The taps for levels; null where they would reach further than <paramref name="longestCentre"/> frames to each side.</summary>
    /// <param name="levelAt">The level as a factor, 0 or more, at each frequency in Hz up to half the rate.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="longestCentre">Frames.</param>
    public static LinearDesign? Of(Func<double, double> levelAt, int sampleRate, int longestCentre) =>
        Of(fft => [.. Enumerable.Range(0, fft.Bins).Select(bin => levelAt((double)bin / fft.Length * sampleRate))], sampleRate, longestCentre);

    private static LinearDesign? Of(Func<RealFft, double[]> levels, int sampleRate, int longestCentre)
    {
        for (var centre = ShortestCentre; centre <= longestCentre; centre *= 2)
        {
            var fft = new RealFft(Fineness * centre);
            var wanted = levels(fft);
            var half = Faded(wanted, fft, centre);
            if (IsNear(wanted, half, fft, sampleRate))
            {
                return new LinearDesign(half, sampleRate);
            }
        }

        return null;
    }

    /// <summary>All taps, with silence around them so that they reach so many frames to each side.</summary>
    public double[] Reaching(int centre)
    {
        var taps = new double[(2 * centre) + 1];
        for (var k = 0; k < _half.Length; k++)
        {
            taps[centre - k] = taps[centre + k] = _half[k];
        }

        return taps;
    }

    private static double[] Levels(CorrectedDesign design, RealFft fft)
    {
        var (taps, re, im) = (new double[fft.Length], new double[fft.Bins], new double[fft.Bins]);
        for (var k = 0; k < design.Taps.Count; k++)
        {
            taps[k] = design.Taps[k];
        }

        fft.Forward(taps, re, im);
        for (var bin = 0; bin < re.Length; bin++)
        {
            var power = (re[bin] * re[bin]) + (im[bin] * im[bin]);
            var phi = BiquadCoefficients.Phi((double)bin / fft.Length);
            foreach (var section in design.Sections)
            {
                power *= Math.Max(0, section.PowerAt(phi));
            }

            re[bin] = Math.Sqrt(power);
        }

        return re;
    }

    // Whole up to the middle of each side, then along a raised cosine.
    private static double[] Faded(double[] wanted, RealFft fft, int centre)
    {
        var taps = new double[fft.Length];
        fft.Inverse(wanted, new double[fft.Bins], taps);
        var half = taps[..(centre + 1)];
        for (var k = centre / 2; k <= centre; k++)
        {
            half[k] *= 0.5 * (1 + Elementary.Cos(Math.PI * ((2.0 * k / centre) - 1)));
        }

        return half;
    }

    private static bool IsNear(double[] wanted, double[] half, RealFft fft, int sampleRate)
    {
        var (taps, re, im) = (new double[fft.Length], new double[fft.Bins], new double[fft.Bins]);
        taps[0] = half[0];
        for (var k = 1; k < half.Length; k++)
        {
            taps[k] = taps[^k] = half[k];
        }

        fft.Forward(taps, re, im);
        var near = Decibels.ToGain(NearDb) - 1;
        var first = (int)Math.Ceiling(LowestHz / sampleRate * fft.Length);
        var last = (int)(Math.Min(HighestHz / sampleRate, HighestPart) * fft.Length);
        for (var bin = first; bin <= last; bin++)
        {
            if (Math.Abs(re[bin] - wanted[bin]) > near * Math.Max(wanted[bin], FloorGain))
            {
                return false;
            }
        }

        return true;
    }
}
