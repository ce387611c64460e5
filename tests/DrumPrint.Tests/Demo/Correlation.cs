using System.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace DrumPrint.Tests.Demo;

/// <summary>Finds how much later, and which way up, one recording has what another has.</summary>
internal static class Correlation
{
    private const int SampleRate = 48000;

    /// <summary>Cross-correlation of windowed stretches after each onset, each hit counting alike, within a band.</summary>
    /// <param name="first">A recording.</param>
    /// <param name="second">The one that is expected to be later.</param>
    /// <param name="onsets">Frames at which hits happen.</param>
    /// <param name="from">Start of the window after each onset.</param>
    /// <param name="length">Length of the window.</param>
    /// <param name="lowHz">Lower edge of the band.</param>
    /// <param name="highHz">Upper edge of the band.</param>
    /// <param name="expected">Lag the second window is moved by beforehand.</param>
    /// <returns>Lag in frames, and the correlation there, negative when one is upside down.</returns>
    public static (double Lag, double Height) Of(double[] first, double[] second, IReadOnlyList<long> onsets, int from, int length, double lowHz, double highHz, double expected)
    {
        ArgumentOutOfRangeException.ThrowIfZero(onsets.Count);
        var size = (int)BitOperations.RoundUpToPowerOf2((uint)(2 * length));
        var finer = Math.Max(2, 8192 / size);
        var sum = new Complex[finer * size];
        var moved = (int)Math.Round(expected);
        foreach (var onset in onsets)
        {
            var a = Spectrum(first, (int)onset + from, length, size);
            var b = Spectrum(second, (int)onset + from + moved, length, size);
            var (powerA, powerB) = (0.0, 0.0);
            var product = new Complex[size];
            for (var k = 1; k < size / 2; k++)
            {
                var freqHz = (double)k * SampleRate / size;
                if (freqHz >= lowHz && freqHz <= highHz)
                {
                    powerA += a[k].Magnitude * a[k].Magnitude;
                    powerB += b[k].Magnitude * b[k].Magnitude;
                    product[k] = Complex.Conjugate(a[k]) * b[k];
                }
            }

            for (var k = 0; k < size / 2; k++)
            {
                sum[k] += product[k] / Math.Sqrt(powerA * powerB) / onsets.Count;
            }
        }

        Fourier.Inverse(sum, FourierOptions.AsymmetricScaling);
        var reach = finer * length / 4;
        var best = Enumerable.Range(-reach, (2 * reach) + 1).MaxBy(n => Math.Abs(At(sum, n)));
        return (((double)best / finer) + moved, At(sum, best) * sum.Length);
    }

    private static double At(Complex[] correlation, int n) => correlation[(n + correlation.Length) % correlation.Length].Real;

    private static Complex[] Spectrum(double[] samples, int start, int length, int size)
    {
        var windowed = new Complex[size];
        for (var n = 0; n < length; n++)
        {
            windowed[n] = samples[start + n] * (0.5 - (0.5 * Math.Cos(2 * Math.PI * n / length)));
        }

        Fourier.Forward(windowed, FourierOptions.AsymmetricScaling);
        return windowed;
    }
}
