using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Alignment;

/// <summary>The cross-correlation of two microphones in which only phases count, averaged over hits.</summary>
/// <remarks>Source: Knapp and Carter, The Generalized Correlation Method for Estimation of Time Delay, IEEE Transactions on
/// Acoustics, Speech, and Signal Processing 24 (1976). The phase transform of each hit is averaged as complex numbers, so what
/// differs from hit to hit cancels. Each frequency then counts by the part of it that is the same in every hit. Their maximum
/// likelihood weighting does so too.</remarks>
internal sealed class WhitenedCorrelation
{
    /// <summary>Values for each frame.</summary>
    public const int Finer = 4;

    private readonly RealFft _fft;
    private readonly double[] _weights;
    private readonly double[] _re;
    private readonly double[] _im;
    private readonly double[] _values;
    private readonly HitSpectrum _other;
    private readonly double _whole;

    /// <param name="window">The window spectra are taken with.</param>
    /// <param name="weights">How much each of its bins counts.</param>
    public WhitenedCorrelation(HitWindow window, double[] weights)
    {
        _weights = weights;
        _whole = weights.Sum();
        _fft = new RealFft(Finer * window.Points);
        (_re, _im, _values) = (new double[_fft.Bins], new double[_fft.Bins], new double[_fft.Length]);
        _other = new HitSpectrum(window.Bins);
    }

    /// <summary>How much of the drum's band is the same in every hit, 0 to 1.</summary>
    public double Likeness { get; private set; }

    /// <summary>Root of the mean square frequency of what counts, in bins.</summary>
    public double MeanBin { get; private set; }

    /// <summary>Correlates hits of the close microphone with what the other one hears so many frames later.</summary>
    public void Take(HitWindow window, HitSpectrum[] close, FrameReader other, IReadOnlyList<long> hitFrames, int laterFrames)
    {
        Array.Clear(_re);
        Array.Clear(_im);
        for (var i = 0; i < close.Length; i++)
        {
            window.Take(other, hitFrames[i] + laterFrames, _other);
            Add(close[i], _other);
        }

        Weigh(close.Length);
        _fft.Inverse(_re, _im, _values);
        var scale = _whole > 0 ? _fft.Length / 2.0 / _whole : 0;
        for (var n = 0; n < _values.Length; n++)
        {
            _values[n] *= scale;
        }
    }

    /// <summary>The correlation, −1 to 1, so many quarters of a frame from where the windows lie.</summary>
    public double At(int quarters) => _values[(quarters + _values.Length) % _values.Length];

    /// <summary>The highest value within a reach, sign taken, and its place by a parabola through its neighbours, in frames.</summary>
    public (double Frames, double Height) Peak(int reach, int sign)
    {
        var best = 0;
        for (var q = -reach; q <= reach; q++)
        {
            best = sign * At(q) > sign * At(best) ? q : best;
        }

        var (before, height, after) = (At(best - 1), At(best), At(best + 1));
        var bend = before - (2 * height) + after;
        var part = bend != 0 ? Math.Clamp(0.5 * (before - after) / bend, -0.5, 0.5) : 0;
        return ((best + part) / Finer, sign * height);
    }

    private void Add(HitSpectrum a, HitSpectrum b)
    {
        for (var k = 0; k < _weights.Length; k++)
        {
            if (_weights[k] == 0)
            {
                continue;
            }

            var size = Math.Sqrt(a.Power(k) * b.Power(k));
            if (size > 0)
            {
                _re[k] += ((a.Re[k] * b.Re[k]) + (a.Im[k] * b.Im[k])) / size;
                _im[k] += ((a.Re[k] * b.Im[k]) - (a.Im[k] * b.Re[k])) / size;
            }
        }
    }

    private void Weigh(int hits)
    {
        var (sum, square) = (0.0, 0.0);
        for (var k = 0; k < _weights.Length; k++)
        {
            var size = Math.Sqrt((_re[k] * _re[k]) + (_im[k] * _im[k]));
            if (size == 0)
            {
                continue;
            }

            // Of unrelated phases, 1 part in N of the power is left after N hits.
            var chance = 1.0 / hits;
            var alike = Math.Max(0, ((size / hits * (size / hits)) - chance) / (1 - chance));
            var weight = _weights[k] * alike;
            (_re[k], _im[k]) = (_re[k] / size * weight, _im[k] / size * weight);
            sum += weight;
            square += weight * k * k;
        }

        Likeness = _whole > 0 ? sum / _whole : 0;
        MeanBin = sum > 0 ? Math.Sqrt(square / sum) : 0;
    }
}
