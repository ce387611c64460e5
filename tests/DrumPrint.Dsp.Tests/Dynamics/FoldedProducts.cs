using System.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>What a compressor adds to a sine that is none of the sine's own harmonics: products folded down.</summary>
internal static class FoldedProducts
{
    /// <summary>The frames looked at; the sine has an odd number of periods in them, so what folds never falls on a harmonic.</summary>
    private const int Frames = 4096;
    private const int Plain = 8;

    /// <summary>The frequency near one asked for that fits.</summary>
    public static double Fitting(double freqHz, int sampleRate) => Periods(freqHz, sampleRate) * (double)sampleRate / Frames;

    /// <summary>Worst folded product of the project's compressor, in dB below the sine that comes out.</summary>
    public static double OfCompress(double freqHz, double level, int sampleRate, params (Parameter, object)[] values)
    {
        var settings = Settings.Of(Compress.Definition.Parameters, values);
        var passes = Passes(settings[Compress.Release], sampleRate) + 1;
        var output = Run.Through(Compress.Definition, settings, [Signals.Sine(passes * Frames, Fitting(freqHz, sampleRate), level, 0.3, sampleRate)], sampleRate: sampleRate)[0];
        return Worst(output[^Frames..], Periods(freqHz, sampleRate));
    }

    /// <summary>The same of a plain one at eight times the rate, its sine made at that rate.</summary>
    public static double OfPlain(double freqHz, double level, int sampleRate, double threshold, double ratio, double knee, double attack, double release, bool isFeedback = false)
    {
        var detector = new PlainDetector(threshold, ratio, knee, attack, release, Plain * sampleRate, isFeedback);
        var output = new double[Plain * Frames];
        var periods = Periods(freqHz, sampleRate);
        var sine = Enumerable.Range(0, output.Length).Select(i => level * Math.Sin((2 * Math.PI * ((long)i * periods % output.Length) / output.Length) + 0.3)).ToArray();
        double[] levelsDb = [.. sine.Select(PlainDetector.LevelDb)];
        for (var pass = 0; pass < Passes(release, sampleRate); pass++)
        {
            foreach (var db in levelsDb)
            {
                detector.Follow(db);
            }
        }

        for (var i = 0; i < output.Length; i++)
        {
            output[i] = sine[i] * detector.Next(sine[i]);
        }

        return Worst(output, periods);
    }

    // Until less than a millionth of where it started is left.
    private static int Passes(double releaseMs, int sampleRate) => 2 + (int)Math.Ceiling(16 * (releaseMs + 12) * sampleRate / 1000 / Frames);

    private static int Periods(double freqHz, int sampleRate) => (int)Math.Round(freqHz * Frames / sampleRate) | 1;

    private static double Worst(double[] signal, int periods)
    {
        Complex[] turns = [.. Enumerable.Range(0, signal.Length / 2).Select(k => Complex.FromPolarCoordinates(1, -2 * Math.PI * k / signal.Length))];
        var bins = Transform([.. signal.Select(x => new Complex(x, 0))], turns);
        var worst = Enumerable.Range(1, (Frames / 2) - 1).Where(b => b % periods != 0 || (b / periods) % 2 == 0).Max(b => bins[b].Magnitude);
        return Spectrum.Decibels((worst / bins[periods].Magnitude) + 1e-15);
    }

    // The textbook's recursion on even and odd samples; the turns of half a circle are those of the whole length.
    private static Complex[] Transform(Complex[] x, Complex[] turns)
    {
        if (x.Length == 1)
        {
            return x;
        }

        var half = x.Length / 2;
        var (even, odd) = (new Complex[half], new Complex[half]);
        for (var k = 0; k < half; k++)
        {
            (even[k], odd[k]) = (x[2 * k], x[(2 * k) + 1]);
        }

        (even, odd) = (Transform(even, turns), Transform(odd, turns));
        var (result, step) = (new Complex[x.Length], turns.Length / half);
        for (var k = 0; k < half; k++)
        {
            var turned = odd[k] * turns[k * step];
            (result[k], result[k + half]) = (even[k] + turned, even[k] - turned);
        }

        return result;
    }
}
