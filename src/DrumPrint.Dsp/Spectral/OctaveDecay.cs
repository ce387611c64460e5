using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Gives octaves of an impulse response another decay, on copies of it.</summary>
/// <remarks>An octave is cut out with edges a third of an octave wide. From the onset on it goes under an exponential, and the difference is added:
/// what comes before the onset stays. The exponentials are put right until octave filters (Butterworth, sixth order)
/// find the decay asked for, with all octaves there.</remarks>
internal sealed class OctaveDecay
{
    /// <summary>The highest middle of an octave that there is, as a part of the sample rate.</summary>
    public const double HighestPart = 0.45;

    private const double LowestMiddleHz = 62.5;
    private const double NepersPer60Db = 6.907755278982137;
    private const double Octave = 1.4142135623730951;
    private const double EdgeOctaves = 1.0 / 6;
    private const double Tolerance = 0.002;
    private const int Rounds = 16;
    private const int FilterOrder = 3;

    private readonly double[][] _channels;
    private readonly int _sampleRate;
    private readonly int _onset;
    private readonly RealFft _fft;
    private readonly double[] _re;
    private readonly double[] _im;
    private readonly double[] _outRe;
    private readonly double[] _outIm;
    private readonly double[] _padded;

    /// <param name="channels">The response; not written to.</param>
    /// <param name="sampleRate">Hertz.</param>
    public OctaveDecay(double[][] channels, int sampleRate)
    {
        (_channels, _sampleRate) = (channels, sampleRate);
        _onset = Math.Max(0, DecayTime.Onset(channels));
        var length = 64;
        while (length < 2 * channels[0].Length)
        {
            length *= 2;
        }

        _fft = new RealFft(length);
        _padded = new double[length];
        (_re, _im) = (new double[_fft.Bins], new double[_fft.Bins]);
        (_outRe, _outIm) = (new double[_fft.Bins], new double[_fft.Bins]);
    }

    /// <summary>Decay of an octave, in seconds, through a band-pass of the sixth order; null when it cannot be told.</summary>
    public double? Of(OctaveAim aim) => Decay(_channels, aim);

    /// <summary>The response with the decays asked for, and what each octave came to.</summary>
    public (double[][] Channels, double?[] Reached) Shape(IReadOnlyList<(OctaveAim Aim, double Seconds)> wanted)
    {
        var rates = new double[wanted.Count];
        double[][][] bands = [.. wanted.Select(w => Filtered(_channels, hz => Cut(hz, w.Aim.MiddleHz, _sampleRate)))];
        var shaped = _channels;
        var reached = new double?[wanted.Count];
        for (var round = 0; round <= Rounds; round++)
        {
            shaped = Laid(bands, rates);
            var isThere = true;
            for (var i = 0; i < rates.Length; i++)
            {
                reached[i] = Decay(shaped, wanted[i].Aim);
                if (reached[i] is { } now && Math.Abs(now - wanted[i].Seconds) > Tolerance * wanted[i].Seconds)
                {
                    isThere = false;
                    rates[i] += NepersPer60Db * ((1 / wanted[i].Seconds) - (1 / now)) / _sampleRate;
                }
            }

            if (isThere)
            {
                break;
            }
        }

        return (shaped, reached);
    }

    // Every octave under its exponential.
    private double[][] Laid(double[][][] bands, double[] rates)
    {
        var shaped = Array.ConvertAll(_channels, c => (double[])c.Clone());
        for (var i = 0; i < rates.Length; i++)
        {
            for (var n = _onset; n < shaped[0].Length; n++)
            {
                var change = Elementary.Expm1(-rates[i] * (n - _onset));
                for (var c = 0; c < shaped.Length; c++)
                {
                    shaped[c][n] += bands[i][c][n] * change;
                }
            }
        }

        return shaped;
    }

    private double? Decay(double[][] channels, OctaveAim aim) => DecayTime.T30(Filtered(channels, hz => BandPass(hz, aim.MiddleHz)), _sampleRate);

    private double[][] Filtered(double[][] channels, Func<double, double> gain) => Array.ConvertAll(channels, channel =>
    {
        channel.CopyTo(_padded, 0);
        Array.Clear(_padded, channel.Length, _padded.Length - channel.Length);
        _fft.Forward(_padded, _re, _im);
        for (var bin = 0; bin < _re.Length; bin++)
        {
            var g = gain((double)bin * _sampleRate / _fft.Length);
            (_outRe[bin], _outIm[bin]) = (_re[bin] * g, _im[bin] * g);
        }

        _fft.Inverse(_outRe, _outIm, _padded);
        return _padded[..channel.Length];
    });

    // 1 within the octave and 0 outside; along half a cosine at both edges. The lowest octave takes in all that is below, the highest all
    // above.
    private static double Cut(double hz, double middleHz, int sampleRate)
    {
        if (hz <= middleHz / 2)
        {
            return middleHz == LowestMiddleHz ? 1 : 0;
        }

        if (hz >= middleHz * 2)
        {
            return middleHz * 2 > HighestPart * sampleRate ? 1 : 0;
        }

        var octaves = Elementary.Log2(hz / middleHz);
        var isOpen = octaves < 0 ? middleHz == LowestMiddleHz : middleHz * 2 > HighestPart * sampleRate;
        var inside = isOpen ? 1 : 0.5 - Math.Abs(octaves);
        return Math.Abs(inside) >= EdgeOctaves ? (inside > 0 ? 1 : 0) : 0.5 + (0.5 * Elementary.Sin(Math.PI / 2 * inside / EdgeOctaves));
    }

    // Magnitude of a Butterworth band-pass that is 3 dB down at the octave's edges.
    private static double BandPass(double hz, double middleHz)
    {
        if (hz <= 0)
        {
            return 0;
        }

        var off = Octave * ((hz / middleHz) - (middleHz / hz));
        var power = 1.0;
        for (var i = 0; i < FilterOrder; i++)
        {
            power *= off * off;
        }

        return 1 / Math.Sqrt(1 + power);
    }
}
