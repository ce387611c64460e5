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

    /// <summary>The same in windows of a hundredth of a second for each of some frequencies, multiples of 100 Hz; the largest.</summary>
    public static double FoldedDb(ProcessorDefinition definition, Settings settings, IEnumerable<double> freqsHz, double levelDb, int rate) => freqsHz.Max(freqHz =>
    {
        var window = Run.Through(definition, settings, [Signals.Sine(9600 + (rate / 100), freqHz, Math.Pow(10, levelDb / 20), sampleRate: rate)], sampleRate: rate)[0].AsSpan(9600).ToArray();
        var lines = Enumerable.Range(2, (rate / 200) - 2).Select(k => k * 100).Where(f => f % (int)freqHz != 0);
        return Spectrum.Decibels(lines.Max(f => Spectrum.AmplitudeAt(window, f, rate)) / Spectrum.AmplitudeAt(window, freqHz, rate));
    });

    /// <summary>100 Hz below each kilohertz of a range, so that what folds does not fall on harmonics.</summary>
    public static IEnumerable<double> Sweep(int fromKhz, int toKhz) => Enumerable.Range(fromKhz, toKhz - fromKhz + 1).Select(k => (k * 1000.0) - 100);

    /// <summary>How far bright noise at 8 times the rate is from the same at 16 times, in dB of it, up to 16 kHz.</summary>
    public static double NoiseDb(ProcessorDefinition definition, Func<double, Settings> settings, double levelDb)
    {
        // Noise of many sines from 4 to 16 kHz: all that comes of it lies on lines 10 Hz apart and repeats after a tenth of a second.
        const int Period = 4800;
        var noise = new double[Period];
        for (var k = 400; k <= 1600; k += 7)
        {
            var phase = k * k * 0.01;
            for (var n = 0; n < noise.Length; n++)
            {
                noise[n] += Math.Sin((2 * Math.PI * k * 10 * n / 48000) + phase);
            }
        }

        var gain = Math.Pow(10, levelDb / 20) / noise.Max(Math.Abs);
        var scaled = Enumerable.Range(0, 9600 + 48000).Select(n => noise[n % Period] * gain).ToArray();
        var outputs = new[] { 8.0, 16 }.Select(factor =>
        {
            var processor = definition.Create(settings(factor), new ProcessorContext(new AudioFormat(48000, 1), 0));
            return Run.Through(processor, [[.. scaled]], 1, extraFrames: processor.LatencyFrames)[0][processor.LatencyFrames..];
        }).ToArray();

        // Above 16 kHz the filters on the way down differ.
        var lines = Enumerable.Range(20, 1580).Select(k => k * 10.0).ToArray();
        var difference = outputs[0].Zip(outputs[1], (a, b) => a - b).ToArray()[9600..57600];
        var whole = outputs[1][9600..57600];
        double Power(double[] x)
        {
            // A line that fits a period sums each of its frames alike.
            var mean = Enumerable.Range(0, Period).Select(n => Enumerable.Range(0, x.Length / Period).Sum(i => x[(i * Period) + n]) / (x.Length / Period)).ToArray();
            return lines.Sum(f => Math.Pow(Spectrum.AmplitudeAt(mean, f), 2));
        }

        return 10 * Math.Log10(Power(difference) / Power(whole));
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
