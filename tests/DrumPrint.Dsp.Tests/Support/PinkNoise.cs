using System.Numerics;
using DrumPrint.Dsp.Metering;
using MathNet.Numerics.IntegralTransforms;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Pink noise by its definition, equal power in every octave, and how loud a meter finds it.</summary>
internal static class PinkNoise
{
    /// <summary>Lines from 20 Hz to 20 kHz with power 1/f and phases at random; it begins again where it ends.</summary>
    public static double[] Make(int frames, ulong seed, int sampleRate = 48000)
    {
        var phases = Signals.Noise((frames / 2) + 1, seed);
        var lines = new Complex[frames];
        for (var k = 1; k < frames / 2; k++)
        {
            var freq = (double)k * sampleRate / frames;
            if (freq is >= 20 and <= 20000)
            {
                lines[k] = Complex.FromPolarCoordinates(1 / Math.Sqrt(freq), Math.PI * phases[k]);
                lines[frames - k] = Complex.Conjugate(lines[k]);
            }
        }

        Fourier.Inverse(lines, FourierOptions.NoScaling);
        var peak = lines.Max(x => Math.Abs(x.Real));
        return Array.ConvertAll(lines, x => 0.5 * x.Real / peak);
    }

    /// <summary>Integrated loudness, LUFS.</summary>
    public static double Lufs(double[][] channels, int sampleRate = 48000)
    {
        var meter = new LoudnessMeter(new AudioFormat(sampleRate, channels.Length), channels[0].Length);
        meter.Add(new AudioBlock(channels, 0, channels[0].Length));
        return meter.IntegratedLufs;
    }
}
