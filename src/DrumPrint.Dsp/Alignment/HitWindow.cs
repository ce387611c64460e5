using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Alignment;

/// <summary>Takes the spectrum of the first milliseconds of a hit.</summary>
/// <remarks>The window rises over three quarters of a millisecond before the hit. It stays, and falls over the last six tenths of
/// its length. Both flanks are raised cosines. A window before the transform keeps edges from adding frequencies of their own
/// (Jillings, Clifford and Reiss, AES Convention 134, paper 8852).</remarks>
internal sealed class HitWindow
{
    private const double RunUpS = 0.001;
    private const double RisingPart = 0.75;
    private const double StayingPart = 0.4;

    private readonly double[] _window;
    private readonly double[] _line;
    private readonly RealFft _fft;
    private readonly int _runUp;

    /// <param name="seconds">Length after the hit.</param>
    /// <param name="rateHz">Frames in a second.</param>
    /// <param name="points">Points of the transform: a power of two, at least twice the window; 0 for the fewest.</param>
    public HitWindow(double seconds, int rateHz, int points = 0)
    {
        _runUp = (int)(RunUpS * rateHz);
        var body = (int)(seconds * rateHz);
        _window = new double[_runUp + body];
        var rising = RisingPart * _runUp;
        for (var n = 0; n < _window.Length; n++)
        {
            var falling = (n - _runUp - (StayingPart * body)) / ((1 - StayingPart) * body);
            _window[n] = n < rising
                ? 0.5 - (0.5 * Elementary.Cos(Math.PI * n / rising))
                : falling > 0 ? 0.5 + (0.5 * Elementary.Cos(Math.PI * falling)) : 1;
        }

        var fewest = 2;
        while (fewest < 2 * _window.Length)
        {
            fewest *= 2;
        }

        _fft = new RealFft(Math.Max(fewest, points));
        _line = new double[_fft.Length];
    }

    /// <summary>Frames it covers.</summary>
    public int Frames => _window.Length;

    /// <summary>Points of the transform.</summary>
    public int Points => _fft.Length;

    /// <summary>Bins of a spectrum.</summary>
    public int Bins => _fft.Bins;

    /// <summary>The spectrum of a hit.</summary>
    public void Take(FrameReader reader, long hitFrame, HitSpectrum into)
    {
        var part = _line.AsSpan(0, _window.Length);
        reader(hitFrame - _runUp, part);
        for (var n = 0; n < part.Length; n++)
        {
            part[n] *= _window[n];
        }

        _line.AsSpan(part.Length).Clear();
        _fft.Forward(_line, into.Re, into.Im);
    }

    /// <summary>Spectra of several hits.</summary>
    public HitSpectrum[] Take(FrameReader reader, IReadOnlyList<long> hitFrames)
    {
        var spectra = new HitSpectrum[hitFrames.Count];
        for (var i = 0; i < spectra.Length; i++)
        {
            spectra[i] = new HitSpectrum(Bins);
            Take(reader, hitFrames[i], spectra[i]);
        }

        return spectra;
    }
}
