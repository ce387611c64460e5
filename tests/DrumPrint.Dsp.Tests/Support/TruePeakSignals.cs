namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Signals of EBU Tech 3341 for true peak, and a slow, fine reading.</summary>
internal static class TruePeakSignals
{
    /// <summary>With 10 ms of fade at both ends.</summary>
    public static double[] Faded(double[] signal)
    {
        const int Fade = Run.SampleRate / 100;
        return [.. signal.Select((x, n) => x * Math.Min(1, Math.Min(n, signal.Length - 1 - n) / (double)Fade))];
    }

    /// <summary>A sine of a sixth of the rate at 0.5 holding one period of a quarter of the rate at 1, at four times the
    /// rate.</summary>
    public static double[] OneLouderPeriod(int count)
    {
        var signal = new double[count];
        var start = count / 2 / 24 * 24;
        for (var n = 0; n < count; n++)
        {
            signal[n] = n < start
                ? 0.5 * Math.Sin(2 * Math.PI * n / 24)
                : n < start + 16 ? Math.Sin(2 * Math.PI * (n - start) / 16) : 0.5 * Math.Sin(2 * Math.PI * (n - start - 16) / 24);
        }

        return signal;
    }

    /// <summary>Every fourth sample of a signal without what lies above half the lower rate.</summary>
    public static double[] Decimated(double[] fine, int offset)
    {
        const int Half = 256;
        return [.. Enumerable.Range(0, fine.Length / 4).Select(n =>
        {
            var sum = 0.0;
            for (var k = Math.Max(0, (4 * n) + offset - Half); k < Math.Min(fine.Length, (4 * n) + offset + Half); k++)
            {
                var x = (k - (4 * n) - offset) / 4.0;
                sum += fine[k] * Sinc(x) * Hann(x * 4 / Half) / 4;
            }

            return sum;
        })];
    }

    /// <summary>Nothing above 0.4 of the rate, so that slow interpolation and the meter see the same wave.</summary>
    public static double[] BandLimited(double[] noise)
    {
        const int Half = 100;
        return [.. Enumerable.Range(0, noise.Length).Select(n =>
        {
            var sum = 0.0;
            for (var k = Math.Max(0, n - Half); k < Math.Min(noise.Length, n + Half); k++)
            {
                sum += noise[k] * 0.8 * Sinc(0.8 * (k - n)) * Hann((double)(k - n) / Half);
            }

            return sum;
        })];
    }

    /// <summary>Peak of the wave by slow interpolation with many points for each sample.</summary>
    public static double FinePeak(double[] signal, int points)
    {
        const int Half = 60;
        var peak = 0.0;
        for (var point = 0; point < points; point++)
        {
            var taps = Enumerable.Range(-Half, 2 * Half).Select(k => Sinc(k - ((double)point / points)) * Hann((k - ((double)point / points)) / (Half + 1))).ToArray();
            for (var n = -Half; n < signal.Length + Half; n++)
            {
                var sum = 0.0;
                for (var k = Math.Max(0, n - Half); k < Math.Min(signal.Length, n + Half); k++)
                {
                    sum += signal[k] * taps[k - n + Half];
                }

                peak = Math.Max(peak, Math.Abs(sum));
            }
        }

        return peak;
    }

    private static double Sinc(double x) => x == 0 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x);

    private static double Hann(double x) => Math.Abs(x) > 1 ? 0 : 0.5 + (0.5 * Math.Cos(Math.PI * x));
}
