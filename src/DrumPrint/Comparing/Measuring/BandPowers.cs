using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Comparing.Measuring;

/// <summary>Mean power of a sound over frequency, from which the power of any band is read.</summary>
/// <remarks>Hann windows that overlap by three quarters: their squares add up to 1.5 everywhere, so that all bands together
/// hold the whole power (Parseval).</remarks>
internal sealed class BandPowers
{
    private const double WindowSeconds = 0.6;
    private const int Overlap = 4;
    private const double SumOfSquaredWindows = 1.5;

    private readonly double[] _bins;
    private readonly double _binHz;

    private BandPowers(double[] bins, double binHz)
    {
        _bins = bins;
        _binHz = binHz;
    }

    /// <summary>Half the sample rate.</summary>
    public double HighestHz => (_bins.Length - 1) * _binHz;

    public double Total => Between(0, HighestHz);

    public static BandPowers Of(Sound sound)
    {
        var length = 2;
        while (length < sound.RateHz * WindowSeconds)
        {
            length *= 2;
        }

        var fft = new RealFft(length);
        var window = Window(length);
        var bins = new double[fft.Bins];
        var (frame, re, im) = (new double[length], new double[fft.Bins], new double[fft.Bins]);
        var hop = length / Overlap;
        foreach (var channel in sound.Channels)
        {
            for (var start = hop - length; start < sound.Frames; start += hop)
            {
                for (var n = 0; n < length; n++)
                {
                    var at = start + n;
                    frame[n] = at >= 0 && at < channel.Length ? channel[at] * window[n] : 0;
                }

                fft.Forward(frame, re, im);
                for (var k = 0; k < bins.Length; k++)
                {
                    bins[k] += (re[k] * re[k]) + (im[k] * im[k]);
                }
            }
        }

        var scale = 2 / (length * SumOfSquaredWindows * Math.Max(1, sound.Frames) * sound.Channels.Length);
        for (var k = 0; k < bins.Length; k++)
        {
            bins[k] *= k == 0 || k == bins.Length - 1 ? scale / 2 : scale;
        }

        return new BandPowers(bins, (double)sound.RateHz / length);
    }

    /// <summary>Power between two frequencies; a bin on an edge counts in part.</summary>
    public double Between(double lowHz, double highHz)
    {
        var sum = 0.0;
        var first = Math.Max(0, (int)((lowHz / _binHz) - 1));
        var last = Math.Min(_bins.Length - 1, (int)(highHz / _binHz) + 1);
        for (var k = first; k <= last; k++)
        {
            var from = Math.Max(lowHz, Math.Max(0, (k - 0.5) * _binHz));
            var to = Math.Min(highHz, Math.Min(HighestHz, (k + 0.5) * _binHz));
            var width = Math.Min(HighestHz, (k + 0.5) * _binHz) - Math.Max(0, (k - 0.5) * _binHz);
            if (to > from)
            {
                sum += _bins[k] * (to - from) / width;
            }
        }

        return sum;
    }

    private static double[] Window(int length)
    {
        var window = new double[length];
        for (var n = 0; n < length; n++)
        {
            window[n] = 0.5 - (0.5 * Elementary.Cos(2 * Math.PI * n / length));
        }

        return window;
    }
}
