using System.Numerics;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Cuts an octave out of a signal: a Butterworth band-pass of the sixth order, as IEC 61260-1 lets octave filters be (from memory), by
/// the bilinear transform.</summary>
internal static class OctaveFilter
{
    public static double[] Through(double[] samples, double middleHz, int sampleRate = Run.SampleRate)
    {
        double Warped(double hz) => 2 * sampleRate * Math.Tan(Math.PI * hz / sampleRate);
        var (low, high) = (Warped(middleHz / Math.Sqrt(2)), Warped(middleHz * Math.Sqrt(2)));
        var (middle, width) = (Math.Sqrt(low * high), high - low);
        var output = samples;

        // A low-pass pole p stands for the two roots of s² − p · width · s + middle² = 0. Of pairs that mirror each other one is enough.
        foreach (var pole in new[] { new Complex(-1, 0), Complex.FromPolarCoordinates(1, 2 * Math.PI / 3) })
        {
            var b = pole * width;
            var root = Complex.Sqrt((b * b) - (4 * middle * middle));
            foreach (var s in pole.Imaginary == 0 ? [(b + root) / 2] : new[] { (b + root) / 2, (b - root) / 2 })
            {
                output = Section(output, (1 + (s / (2 * sampleRate))) / (1 - (s / (2 * sampleRate))), middleHz, sampleRate);
            }
        }

        return output;
    }

    // A pair of poles with zeros at 0 Hz and half the rate, 1 in the middle.
    private static double[] Section(double[] x, Complex z, double middleHz, int sampleRate)
    {
        var (a1, a2) = (-2 * z.Real, z.Magnitude * z.Magnitude);
        var e = Complex.FromPolarCoordinates(1, -2 * Math.PI * middleHz / sampleRate);
        var gain = ((1 + (a1 * e) + (a2 * e * e)) / (1 - (e * e))).Magnitude;
        var y = new double[x.Length];
        for (var n = 0; n < x.Length; n++)
        {
            y[n] = (gain * (x[n] - (n < 2 ? 0 : x[n - 2]))) - (n < 1 ? 0 : a1 * y[n - 1]) - (n < 2 ? 0 : a2 * y[n - 2]);
        }

        return y;
    }
}
