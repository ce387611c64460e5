using System.Numerics;
using DrumPrint.Dsp.Filters;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Response of sections from their difference equations, written out in z.</summary>
internal static class Response
{
    /// <summary>Frequencies from 20 Hz to 20 kHz, or to the given top, evenly spaced on a log scale.</summary>
    public static IEnumerable<double> AudibleFrequencies(int count = 240, double top = 20000) =>
        Enumerable.Range(0, count).Select(i => 20 * Math.Pow(top / 20, i / (count - 1.0)));

    public static Complex At(IEnumerable<BiquadCoefficients> sections, double freqHz, int sampleRate)
    {
        var z = Complex.FromPolarCoordinates(1, -2 * Math.PI * freqHz / sampleRate);
        return sections.Aggregate(Complex.One, (h, s) => h * (s.B0 + (z * (s.B1 + (z * s.B2)))) / (1 + (z * (s.A1 + (z * s.A2)))));
    }

    public static double DbAt(IEnumerable<BiquadCoefficients> sections, double freqHz, int sampleRate) =>
        20 * Math.Log10(At(sections, freqHz, sampleRate).Magnitude);

    /// <summary>Largest distance in dB from an analog response over the audible range.</summary>
    public static double WorstDb(IReadOnlyCollection<BiquadCoefficients> sections, Func<Complex, Complex> analog, double cornerHz, int sampleRate) =>
        AudibleFrequencies(top: Math.Min(20000, 0.4535 * sampleRate)).Max(f =>
            Math.Abs(DbAt(sections, f, sampleRate) - (20 * Math.Log10(analog(new Complex(0, f / cornerHz)).Magnitude))));

    /// <summary>Largest distance in degrees of phase over the audible range.</summary>
    public static double WorstDegrees(IReadOnlyCollection<BiquadCoefficients> sections, Func<Complex, Complex> analog, double cornerHz, int sampleRate) =>
        AudibleFrequencies(top: Math.Min(20000, 0.4535 * sampleRate)).Max(f =>
            Math.Abs((At(sections, f, sampleRate) / analog(new Complex(0, f / cornerHz))).Phase * 180 / Math.PI));

    /// <summary>Response of a corrected design with its latency taken out: sections and taps written out in z.</summary>
    public static Complex At(CorrectedDesign design, double freqHz, int sampleRate)
    {
        var z = Complex.FromPolarCoordinates(1, -2 * Math.PI * freqHz / sampleRate);
        var taps = design.Taps.Reverse().Aggregate(Complex.Zero, (sum, tap) => (sum * z) + tap);
        return At(design.Sections, freqHz, sampleRate) * taps * Complex.FromPolarCoordinates(1, 2 * Math.PI * freqHz / sampleRate * design.LatencyFrames);
    }

    public static double DbAt(CorrectedDesign design, double freqHz, int sampleRate) => 20 * Math.Log10(At(design, freqHz, sampleRate).Magnitude);

    /// <summary>Largest distance in dB from an analog response over the audible range.</summary>
    public static double WorstDb(CorrectedDesign design, Func<Complex, Complex> analog, double cornerHz, int sampleRate) =>
        AudibleFrequencies(top: Math.Min(20000, 0.4535 * sampleRate)).Max(f =>
            Math.Abs(DbAt(design, f, sampleRate) - (20 * Math.Log10(analog(new Complex(0, f / cornerHz)).Magnitude))));

    /// <summary>Largest distance in degrees of phase over the audible range.</summary>
    public static double WorstDegrees(CorrectedDesign design, Func<Complex, Complex> analog, double cornerHz, int sampleRate) =>
        AudibleFrequencies(top: Math.Min(20000, 0.4535 * sampleRate)).Max(f =>
            Math.Abs((At(design, f, sampleRate) / analog(new Complex(0, f / cornerHz))).Phase * 180 / Math.PI));

    /// <summary>The untouched sound and a band at equal level, less the same sum of the analog band. The worst up to a frequency,
    /// in dB of the larger of both.</summary>
    public static double WorstBlendDb(CorrectedDesign design, Func<double, Complex> analogAtHz, double topHz, int sampleRate) =>
        20 * Math.Log10(AudibleFrequencies(120, topHz).Concat(Enumerable.Range(1, 60).Select(i => topHz * i / 60)).Max(f =>
        {
            var analog = analogAtHz(f);
            return ((1 + At(design, f, sampleRate)) - (1 + analog)).Magnitude / Math.Max(1, analog.Magnitude);
        }));
}
