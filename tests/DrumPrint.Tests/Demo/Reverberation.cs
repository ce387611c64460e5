using System.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace DrumPrint.Tests.Demo;

/// <summary>Decay times by ISO 3382-1: backward integration, T30 from −5 to −35 dB.</summary>
internal static class Reverberation
{
    /// <summary>Over the whole band.</summary>
    public static double T30(double[] response)
    {
        var left = new double[response.Length + 1];
        for (var n = response.Length - 1; n >= 0; n--)
        {
            left[n] = left[n + 1] + (response[n] * response[n]);
        }

        var points = Enumerable.Range(0, response.Length)
            .Select(n => (Time: n / 48000.0, Db: 10 * Math.Log10(left[n] / left[0])))
            .Where(p => p.Db is <= -5 and >= -35)
            .ToArray();
        var (_, slope) = MathNet.Numerics.Fit.Line([.. points.Select(p => p.Time)], [.. points.Select(p => p.Db)]);
        return -60 / slope;
    }

    /// <summary>Mean of the octaves at 500 Hz and 1 kHz, the standard's single number.</summary>
    public static double T30Mid(double[] response) => (T30(Octave(response, 500)) + T30(Octave(response, 1000))) / 2;

    private static double[] Octave(double[] response, double centreHz)
    {
        var size = (int)BitOperations.RoundUpToPowerOf2((uint)(2 * response.Length));
        var spectrum = new Complex[size];
        for (var n = 0; n < response.Length; n++)
        {
            spectrum[n] = response[n];
        }

        Fourier.Forward(spectrum);
        for (var k = 0; k < size; k++)
        {
            var freqHz = Math.Min(k, size - k) * 48000.0 / size;
            if (freqHz < centreHz / Math.Sqrt(2) || freqHz > centreHz * Math.Sqrt(2))
            {
                spectrum[k] = 0;
            }
        }

        Fourier.Inverse(spectrum);
        return [.. spectrum.Take(response.Length).Select(c => c.Real)];
    }
}
