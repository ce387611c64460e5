using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Tests.Alignment.Truth;

/// <summary>Spectra of whole recordings and the memory they need, kept from scene to scene.</summary>
internal sealed class TruthLab
{
    [ThreadStatic]
    private static Dictionary<int, TruthLab>? _labs;

    private readonly RealFft _fft;
    private readonly double[] _line;
    private readonly List<Spectra> _kept = [];
    private readonly Spectra _sum;

    private TruthLab(int length)
    {
        (_fft, _line) = (new RealFft(length), new double[length]);
        _sum = new Spectra(_fft.Bins);
    }

    /// <summary>The one of this thread for transforms of so many points.</summary>
    public static TruthLab Of(int length)
    {
        _labs ??= [];
        if (!_labs.TryGetValue(length, out var lab))
        {
            lab = new TruthLab(length);
            _labs.Add(length, lab);
        }

        return lab;
    }

    /// <summary>The spectrum of a line, which holds until the next one is put in its place.</summary>
    public Spectra Spectrum(double[] line, int place)
    {
        while (_kept.Count <= place)
        {
            _kept.Add(new Spectra(_fft.Bins));
        }

        line.CopyTo(_line, 0);
        Array.Clear(_line, line.Length, _line.Length - line.Length);
        _fft.Forward(_line, _kept[place].Re, _kept[place].Im);
        return _kept[place];
    }

    /// <summary>A spectrum of silence to add to, which holds until the next one is asked for.</summary>
    public Spectra Nothing()
    {
        Array.Clear(_sum.Re);
        Array.Clear(_sum.Im);
        return _sum;
    }

    /// <summary>The first frames of what a spectrum sounds like.</summary>
    public double[] Line(Spectra spectrum, int frames)
    {
        _fft.Inverse(spectrum.Re, spectrum.Im, _line);
        return _line.AsSpan(0, frames).ToArray();
    }

    /// <summary>Real and imaginary parts.</summary>
    internal sealed class Spectra(int bins)
    {
        public double[] Re { get; } = new double[bins];

        public double[] Im { get; } = new double[bins];

        public void Add(Spectra a, Spectra b, double gain)
        {
            for (var k = 0; k < Re.Length; k++)
            {
                Re[k] += gain * ((a.Re[k] * b.Re[k]) - (a.Im[k] * b.Im[k]));
                Im[k] += gain * ((a.Re[k] * b.Im[k]) + (a.Im[k] * b.Re[k]));
            }
        }
    }
}
