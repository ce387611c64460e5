using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Metering;

/// <summary>Level of a signal in thirds of an octave over the last moments, for somebody who watches while it plays.</summary>
/// <remarks>Mid frequencies and edges are those of IEC 61260-1:2014 (from memory): 1000 Hz times whole powers of 10^0.1, edges half a step
/// away. The bands are cut out of a Fourier transform under a Hann window, so their edges are as steep as its resolution allows. A
/// sine of full scale is 0 dB.</remarks>
public sealed class BandLevels
{
    private const int Lowest = -16;
    private const int Highest = 13;

    // Below about 40 Hz a third is as wide as two bins.
    private const double LeastSeconds = 0.3;

    // A twentieth of a decade.
    private static readonly double HalfStep = Decibels.ToGain(1);

    private readonly int _rate;
    private readonly RealFft _fft;
    private readonly double[][] _past;
    private readonly double[] _window;
    private readonly double[] _windowed;
    private readonly double[] _re;
    private readonly double[] _im;
    private int _next;

    /// <param name="sampleRate">Hertz.</param>
    public BandLevels(int sampleRate)
    {
        _rate = sampleRate;
        var length = 1;
        while (length < LeastSeconds * sampleRate)
        {
            length *= 2;
        }

        _fft = new RealFft(length);
        _past = [new double[length], new double[length]];
        _window = [.. Enumerable.Range(0, length).Select(n => 0.5 - (0.5 * Elementary.Cos(2 * Math.PI * n / length)))];
        _windowed = new double[length];
        (_re, _im) = (new double[_fft.Bins], new double[_fft.Bins]);
    }

    /// <summary>Mid frequencies in hertz: 25 Hz to 20 kHz.</summary>
    public static IReadOnlyList<double> Frequencies { get; } = [.. Enumerable.Range(Lowest, Highest - Lowest + 1).Select(k => 1000 * Decibels.ToGain(2 * k))];

    /// <summary>Listens to the next block of two channels.</summary>
    public void Add(AudioBlock block)
    {
        for (var n = 0; n < block.Frames; n++)
        {
            _past[0][_next] = block[0][n];
            _past[1][_next] = block[1][n];
            _next = (_next + 1) % _window.Length;
        }
    }

    /// <summary>Levels in dB of each band, both channels together; −∞ where there is nothing.</summary>
    /// <param name="db">One number for each of <see cref="Frequencies"/>.</param>
    public void Read(Span<double> db)
    {
        db.Clear();
        foreach (var past in _past)
        {
            for (var n = 0; n < _window.Length; n++)
            {
                _windowed[n] = _window[n] * past[(_next + n) % _window.Length];
            }

            _fft.Forward(_windowed, _re, _im);
            for (var band = 0; band < Frequencies.Count; band++)
            {
                var from = Bin(Frequencies[band] / HalfStep);
                var to = Math.Min(_fft.Bins - 1, Math.Max(from, Bin(Frequencies[band] * HalfStep) - 1));
                for (var bin = from; bin <= to; bin++)
                {
                    db[band] += (_re[bin] * _re[bin]) + (_im[bin] * _im[bin]);
                }
            }
        }

        // A sine of amplitude 1 on both sides has the power 3/16 of the length squared under this window, each.
        var whole = 2 * 3.0 / 32 * _window.Length * _window.Length;
        for (var band = 0; band < db.Length; band++)
        {
            db[band] = Decibels.FromGain(Math.Sqrt(db[band] / whole));
        }
    }

    private int Bin(double hertz) => (int)Math.Ceiling(hertz * _window.Length / _rate);
}
