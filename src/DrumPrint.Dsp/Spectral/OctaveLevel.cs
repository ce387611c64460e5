using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Gives octaves of an impulse response another level, in place, by a filter of least phase: nothing comes earlier than before.</summary>
/// <remarks>Between the middles of two octaves the decibels go along half a cosine. The phase follows from the level by the cepstrum: Oppenheim and
/// Schafer, Discrete-Time Signal Processing (from memory).</remarks>
internal static class OctaveLevel
{
    private const double NepersPerDb = 0.11512925464970229;

    /// <summary>Filters the channels.</summary>
    public static void Apply(double[][] channels, int sampleRate, IReadOnlyList<OctaveAim> aims)
    {
        var length = 1 << 14;
        while (length < 2 * channels[0].Length)
        {
            length *= 2;
        }

        var fft = new RealFft(length);
        var (re, im) = (new double[fft.Bins], new double[fft.Bins]);
        var (filterRe, filterIm) = LeastPhase(fft, bin => NepersPerDb * LevelDb((double)bin * sampleRate / length, aims));
        var padded = new double[length];
        foreach (var channel in channels)
        {
            channel.CopyTo(padded, 0);
            Array.Clear(padded, channel.Length, length - channel.Length);
            fft.Forward(padded, re, im);
            for (var bin = 0; bin < re.Length; bin++)
            {
                (re[bin], im[bin]) = ((re[bin] * filterRe[bin]) - (im[bin] * filterIm[bin]), (re[bin] * filterIm[bin]) + (im[bin] * filterRe[bin]));
            }

            fft.Inverse(re, im, padded);
            padded.AsSpan(0, channel.Length).CopyTo(channel);
        }
    }

    private static double LevelDb(double hz, IReadOnlyList<OctaveAim> aims)
    {
        var db = 0.0;
        foreach (var aim in aims)
        {
            var away = hz > 0 ? Math.Abs(Elementary.Log2(hz / aim.MiddleHz)) : 1;
            db += away < 1 ? aim.LevelDb * (0.5 + (0.5 * Elementary.Cos(Math.PI * away))) : 0;
        }

        return db;
    }

    // What comes before zero in the cepstrum is folded over to what comes after.
    private static (double[] Re, double[] Im) LeastPhase(RealFft fft, Func<int, double> nepers)
    {
        var cepstrum = new double[fft.Length];
        var half = fft.Length / 2;
        fft.Inverse([.. Enumerable.Range(0, fft.Bins).Select(nepers)], new double[fft.Bins], cepstrum);
        for (var n = 1; n < half; n++)
        {
            cepstrum[n] *= 2;
            cepstrum[half + n] = 0;
        }

        var (re, im) = (new double[fft.Bins], new double[fft.Bins]);
        fft.Forward(cepstrum, re, im);
        for (var bin = 0; bin < re.Length; bin++)
        {
            var gain = Elementary.Exp(re[bin]);
            var (sin, cos) = Elementary.SinCos(im[bin]);
            (re[bin], im[bin]) = (gain * cos, gain * sin);
        }

        return (re, im);
    }
}
