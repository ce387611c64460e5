using DrumPrint.Audio;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Comparing.Measuring;

/// <summary>What is left when matched B is taken from A.</summary>
/// <param name="IsIdentical">Whether every sample is the same, before any matching.</param>
/// <param name="RmsDb">Mean level of the rest against A's; −∞ for nothing.</param>
/// <param name="PeakDbfs">Largest sample of the rest.</param>
/// <param name="BestGainDb">The gain on B that leaves least; NaN when one side is silent.</param>
/// <param name="BestRmsDb">What that leaves, against A.</param>
/// <param name="IsPureGain">Whether B is A at another level and nothing else, as far as 90 dB down or the files' word length.</param>
public sealed record NullTest(bool IsIdentical, double RmsDb, double PeakDbfs, double BestGainDb, double BestRmsDb, bool IsPureGain)
{
    private const double PureDb = -90;
    private const double MostUnexplained = 1e-3;

    // Of a rounded file with triangular dither: three times a twelfth of the squared step.
    private const double NoiseOfStep = 3.0 / 12;

    /// <param name="a">A.</param>
    /// <param name="b">B, lined up, at its own level.</param>
    /// <param name="sign">−1 when B's polarity is the opposite.</param>
    /// <param name="matchGain">Gain that matches B.</param>
    /// <param name="encodings">Word lengths of A's file and B's.</param>
    internal static NullTest Of(Sound a, Sound b, double sign, double matchGain, params ReadOnlySpan<SampleEncoding> encodings)
    {
        var identical = a.Channels.Length == b.Channels.Length && a.Channels.Zip(b.Channels).All(c => c.First.AsSpan().SequenceEqual(c.Second));
        var (left, right) = Sound.Together(a, b);
        var power = left.Power;
        var (rest, peak) = Rest(left, right, sign * matchGain);
        var energyB = right.Channels.Sum(c => Levels.Energy(c));
        var product = left.Channels.Zip(right.Channels).Sum(c => Levels.Product(c.First, c.Second));
        if (power == 0 || energyB == 0)
        {
            return new NullTest(identical, identical ? double.NegativeInfinity : Levels.Db(power == 0 ? 1 : rest / power), Decibels.FromGain(peak), double.NaN, double.NaN, false);
        }

        var gain = product / energyB;
        var (least, _) = Rest(left, right, gain);
        var noise = 0.0;
        for (var side = 0; side < encodings.Length; side++)
        {
            noise += Noise(encodings[side]) * (side == 0 ? 1 : gain * gain);
        }

        // Rounding alone explains what is left only where most of A is explained already: two quiet sounds are both near it.
        var pure = Levels.Db(least / power) <= PureDb || (least <= 2 * noise && least <= MostUnexplained * power);
        return new NullTest(
            identical,
            Levels.Db(rest / power),
            Decibels.FromGain(peak),
            Decibels.FromGain(Math.Abs(gain)),
            Levels.Db(least / power),
            pure);
    }

    private static double Noise(SampleEncoding encoding)
    {
        var step = encoding switch
        {
            SampleEncoding.Pcm8 => 1.0 / (1 << 7),
            SampleEncoding.Pcm16 => 1.0 / (1 << 15),
            SampleEncoding.Pcm24 => 1.0 / (1 << 23),
            _ => 0,
        };
        return step * step * NoiseOfStep;
    }

    private static (double Power, double Peak) Rest(Sound a, Sound b, double gain)
    {
        var (sum, peak) = (0.0, 0.0);
        for (var channel = 0; channel < a.Channels.Length; channel++)
        {
            var (x, y) = (a.Channels[channel], b.Channels[channel]);
            for (var n = 0; n < x.Length; n++)
            {
                var rest = x[n] - (gain * y[n]);
                sum += rest * rest;
                peak = Math.Max(peak, Math.Abs(rest));
            }
        }

        return (a.Frames == 0 ? 0 : sum / a.Frames / a.Channels.Length, peak);
    }
}
