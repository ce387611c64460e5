using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>What the medium's memory and its means do to small signals, and what undoes it. A filter of two taps at twice the
/// frame rate leaves a pure delay. The last filter on the way down gets a gain.</summary>
/// <remarks>The two taps are placed so that the delay is the same at two frequencies. In between and down to 0 Hz the phase
/// strays by under 0.02° from that delay, at 8 times 44.1 kHz.</remarks>
internal sealed class TapeLag
{
    // As parts of the flat band, 20 kHz at 44.1 kHz.
    private const double FirstAt = 0.5;
    private const double SecondAt = 0.93;
    private const double FlatPart = 20 / 44.1;
    private const int Halvings = 50;

    private readonly double _sampleRate;
    private readonly double _rate;
    private readonly double _tap;

    /// <param name="sampleRate">Frame rate in hertz.</param>
    /// <param name="oversampling">How many times it is raised.</param>
    public TapeLag(int sampleRate, int oversampling)
    {
        (_sampleRate, _rate) = (sampleRate, (double)sampleRate * oversampling);
        var (low, high) = (0.0, 0.95);
        for (var i = 0; i < Halvings; i++)
        {
            // The memory lags most at 0 Hz; a greater tap takes more of that away.
            var middle = (low + high) / 2;
            (low, high) = DelayAt(FirstAt * FlatPart * sampleRate, middle) > DelayAt(SecondAt * FlatPart * sampleRate, middle) ? (middle, high) : (low, middle);
        }

        _tap = low;
        Delay = (DelayAt(SecondAt * FlatPart * sampleRate, _tap) * _rate) + 2;
        Straightener = new FirstOrder(1 / (1 - _tap), -_tap / (1 - _tap), 0);
    }

    /// <summary>The two taps.</summary>
    public FirstOrder Straightener { get; }

    /// <summary>Delay of medium and straightener in samples of the full rate.</summary>
    public double Delay { get; }

    /// <summary>Gain of medium and straightener to a small signal.</summary>
    public double GainAt(double freqHz)
    {
        var response = At(freqHz, _tap);
        return Math.Sqrt(response.Power);
    }

    // In seconds, two samples of the full rate left out.
    private double DelayAt(double freqHz, double tap)
    {
        var response = At(freqHz, tap);
        return -Elementary.Atan(response.Im / response.Re) / (2 * Math.PI * freqHz);
    }

    private ComplexValue At(double freqHz, double tap)
    {
        var (sin, cos) = Elementary.SinCos(Math.PI * freqHz / _sampleRate);
        return TapeMedium.SmallSignal(freqHz, _rate) * new ComplexValue(1 - (tap * cos), tap * sin) / (1 - tap);
    }
}
