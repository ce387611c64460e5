namespace DrumPrint.Dsp.Tests.Support;

/// <summary>True peak by ITU-R BS.1770-5, Annex 2, at sixteen points a frame, read slowly with several interpolators: what one of them sees
/// beyond another is no excuse.</summary>
/// <remarks>The annex leaves the filter open and gives one of twelve taps a point as an example.</remarks>
internal static class TruePeakReaders
{
    private const int Points = 16;

    /// <summary>Highest level that any of the readers finds, in dB TP.</summary>
    public static double HighestDb(double[] signal) => new[]
    {
        Db(signal, 10, u => Kaiser(u, 5)),
        Db(signal, 24, u => Kaiser(u, 8)),
        Db(signal, 60, u => (1 + Math.Cos(Math.PI * u)) / 2),
        Db(signal, 400, u => (1 + Math.Cos(Math.PI * u)) / 2),
    }.Max();

    private static double Db(double[] signal, int half, Func<double, double> window)
    {
        var peak = signal.Max(Math.Abs);
        for (var point = 1; point < Points; point++)
        {
            var taps = Enumerable.Range(1 - half, 2 * half).Select(k => Sinc(k - ((double)point / Points)) * window((k - ((double)point / Points)) / half)).ToArray();
            for (var n = -half; n < signal.Length + half; n++)
            {
                var (first, last) = (Math.Max(0, n - half + 1), Math.Min(signal.Length - 1, n + half));
                var sum = 0.0;
                for (var k = first; k <= last; k++)
                {
                    sum += signal[k] * taps[k - n + half - 1];
                }

                peak = Math.Max(peak, Math.Abs(sum));
            }
        }

        return Spectrum.Decibels(peak);
    }

    private static double Sinc(double x) => x == 0 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x);

    private static double Kaiser(double u, double beta) => Math.Abs(u) >= 1 ? 0 : Bessel(beta * Math.Sqrt(1 - (u * u))) / Bessel(beta);

    private static double Bessel(double x)
    {
        var (sum, term) = (1.0, 1.0);
        for (var k = 1; k < 60; k++)
        {
            term *= x * x / (4.0 * k * k);
            sum += term;
        }

        return sum;
    }
}
