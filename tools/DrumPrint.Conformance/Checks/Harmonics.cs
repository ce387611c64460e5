using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>What a processor makes of a steady sine.</summary>
internal static class Harmonics
{
    /// <summary>Amplitudes of the first seven harmonics of a sine that fits a tenth of a second.</summary>
    public static double[] Of(ProcessorDefinition definition, Settings settings, double freqHz, double levelDb, int settle = 9600)
    {
        var window = Run.Through(definition, settings, [Signals.Sine(settle + 4800, freqHz, Math.Pow(10, levelDb / 20))])[0].AsSpan(settle).ToArray();
        return [.. Enumerable.Range(1, 7).Select(n => n * freqHz < 24000 ? Spectrum.AmplitudeAt(window, n * freqHz) : 0)];
    }

    /// <summary>Largest component that is no harmonic of a sine, in dB of the sine.</summary>
    public static double FoldedDb(ProcessorDefinition definition, Settings settings, double freqHz, double levelDb, int rate)
    {
        var window = Run.Through(definition, settings, [Signals.Sine(9600 + (rate / 10), freqHz, Math.Pow(10, levelDb / 20), sampleRate: rate)], sampleRate: rate)[0].AsSpan(9600);
        var step = rate % 1000 == 0 ? 1000 : 100;
        var worst = 0.0;
        for (var f = step; f < rate / 2; f += step)
        {
            worst = f % (int)freqHz == 0 ? worst : Math.Max(worst, Spectrum.AmplitudeAt(window, f, rate));
        }

        return Spectrum.Decibels(worst / Spectrum.AmplitudeAt(window, freqHz, rate));
    }

    /// <summary>Where something that rises with a level comes to a value, by halving.</summary>
    public static double Where(double low, double high, double value, Func<double, double> rising)
    {
        for (var i = 0; i < 14; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = rising(middle) < value ? (middle, high) : (low, middle);
        }

        return high;
    }
}
