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

    /// <summary>Two band-passes of Q √2 one after another: an octave whose own ringing is far shorter than any room's.</summary>
    public static double[] Octave(double[] response, double centreHz) => BandPass(BandPass(response, centreHz), centreHz);

    // Constant peak gain, Audio EQ Cookbook.
    private static double[] BandPass(double[] x, double centreHz)
    {
        var w = 2 * Math.PI * centreHz / 48000;
        var alpha = Math.Sin(w) / (2 * Math.Sqrt(2));
        var (b0, a1, a2) = (alpha / (1 + alpha), -2 * Math.Cos(w) / (1 + alpha), (1 - alpha) / (1 + alpha));
        var y = new double[x.Length];
        for (var n = 0; n < x.Length; n++)
        {
            y[n] = (b0 * (x[n] - At(x, n - 2))) - (a1 * At(y, n - 1)) - (a2 * At(y, n - 2));
        }

        return y;
    }

    private static double At(double[] samples, int n) => n < 0 ? 0 : samples[n];
}
