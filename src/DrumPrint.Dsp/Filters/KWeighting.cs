using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Filters;

/// <summary>The weighting filter of loudness meters: a high shelf for the head, then a high-pass.</summary>
/// <remarks>Source: ITU-R BS.1770-5, Annex 1, Tables 1 and 2, for 48 kHz. For other rates the standard asks for the same
/// response. The bilinear transform of certain analog filters gives the tables to 14 digits at 48 kHz. These filters are
/// transformed at the rate in use. The largest distance from the 48 kHz curve up to 20 kHz is 0.008 dB, at 192
/// kHz.</remarks>
public static class KWeighting
{
    private const int TableRate = 48000;
    private const double ShelfHz = 1681.974450955533;
    private const double ShelfDb = 3.999843853973347;
    private const double ShelfQ = 0.7071752369554196;
    private const double ShelfMiddlePower = 0.4996667741545416;
    private const double HighPassHz = 38.13547087602444;
    private const double HighPassQ = 0.5003270373238773;

    /// <summary>The two sections for a sample rate.</summary>
    public static BiquadCoefficients[] Sections(int sampleRate) => sampleRate == TableRate
        ?
        [
            BiquadCoefficients.FromDirect(1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585),
            BiquadCoefficients.FromDirect(1, -2, 1, -1.99004745483398, 0.99007225036621),
        ]
        : [Shelf(sampleRate), HighPass(sampleRate)];

    private static BiquadCoefficients Shelf(int sampleRate)
    {
        var k = Elementary.Tan(Math.PI * ShelfHz / sampleRate);
        var high = Decibels.ToGain(ShelfDb);
        var middle = Elementary.Pow(high, ShelfMiddlePower);
        var damping = k / ShelfQ;
        var a0 = 1 + damping + (k * k);
        return new(
            (high + (middle * damping) + (k * k)) / a0,
            ((2 * middle * damping) + (4 * k * k)) / a0,
            4 * k * k / a0,
            ((2 * damping) + (4 * k * k)) / a0,
            4 * k * k / a0);
    }

    // The table's numerator is 1, −2, 1. So its gain far up is not 1, and the meter's constant reckons with that.
    private static BiquadCoefficients HighPass(int sampleRate)
    {
        var (a0, k, damping) = HighPassParts(sampleRate);
        return new(HighPassParts(TableRate).A0 / a0, 0, 0, ((2 * damping) + (4 * k * k)) / a0, 4 * k * k / a0);
    }

    private static (double A0, double K, double Damping) HighPassParts(int sampleRate)
    {
        var k = Elementary.Tan(Math.PI * HighPassHz / sampleRate);
        var damping = k / HighPassQ;
        return (1 + damping + (k * k), k, damping);
    }
}
