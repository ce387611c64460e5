using System.Numerics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Metering;

/// <summary>How loud pink noise comes out of an impulse response, as a loudness meter hears it.</summary>
/// <remarks>
/// Pink noise has equal power in every octave, 1/f, here from 20 Hz to 20 kHz. The meter weights it with <see cref="KWeighting"/>
/// (ITU-R BS.1770-5) and adds up the channels' powers. Drums are nearer to pink than to white noise. By white noise, half of what
/// is levelled lies above 10 kHz, where a dark room answers little.
/// </remarks>
internal static class PinkLoudness
{
    private const double LowestHz = 20;
    private const double HighestHz = 20000;

    /// <summary>Frequencies lie this close, or closer where the response is long.</summary>
    private const double WidestStepHz = 1;

    /// <summary>Weighted power that comes out over all channels, as a part of what went in; 0 for silence.</summary>
    public static double Power(ReadOnlySpan<double[]> channels, int sampleRate)
    {
        var frames = Math.Max(channels[0].Length, (int)(sampleRate / WidestStepHz));
        var fft = new RealFft((int)BitOperations.RoundUpToPowerOf2((uint)frames));
        var (signal, re, im) = (new double[fft.Length], new double[fft.Bins], new double[fft.Bins]);
        var step = (double)sampleRate / fft.Length;
        var first = (int)Math.Ceiling(LowestHz / step);
        var weights = Weights(first, Math.Min((int)(HighestHz / step), fft.Bins - 1), step, sampleRate);
        var (whole, heard) = (0.0, 0.0);
        foreach (var weight in weights)
        {
            whole += weight;
        }

        foreach (var channel in channels)
        {
            channel.CopyTo(signal, 0);
            fft.Forward(signal, re, im);
            for (var i = 0; i < weights.Length; i++)
            {
                heard += weights[i] * ((re[first + i] * re[first + i]) + (im[first + i] * im[first + i]));
            }
        }

        return heard / whole;
    }

    private static double[] Weights(int first, int last, double step, int sampleRate)
    {
        var sections = KWeighting.Sections(sampleRate);
        var weights = new double[last - first + 1];
        for (var i = 0; i < weights.Length; i++)
        {
            var freq = (first + i) * step;
            var phi = BiquadCoefficients.Phi(freq / sampleRate);
            weights[i] = sections[0].PowerAt(phi) * sections[1].PowerAt(phi) / freq;
        }

        return weights;
    }
}
