using DrumPrint.Demo.Kit;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>A bronze plate: a crowd of modes in no simple ratio, a stick's tick and a wash that swells after the blow.</summary>
/// <param name="Name">Whose modes these are: every stroke on the same cymbal shares them.</param>
/// <param name="Radiator">Where it hangs.</param>
internal sealed record Cymbal(string Name, Radiator Radiator)
{
    private const int WashBands = 5;

    public int Modes { get; init; } = 90;

    public double LowHz { get; init; } = 300;

    public double HighHz { get; init; } = 15000;

    /// <summary>Where its modes are strongest.</summary>
    public double CentreHz { get; init; } = 4500;

    public double ModeLevel { get; init; } = 1;

    public double WashLevel { get; init; }

    public double WashRiseS { get; init; } = 0.02;

    public double StickLevel { get; init; }

    /// <summary>Decay time at the lowest mode; the highest dies in a quarter of it.</summary>
    public double DecayS { get; init; } = 1;

    public int Frames { get; init; } = 48000;

    /// <param name="softness">0 for the hardest stroke, 1 for the softest.</param>
    /// <param name="noise">What makes this stroke a little different from the next.</param>
    public KitSound Make(double softness, CounterNoise noise)
    {
        var plate = CounterNoise.FromName($"slow ferry/cymbal/{Name}");
        var ring = new double[Frames];
        var each = ModeLevel / Math.Sqrt(Modes);
        for (var i = 0; i < Modes; i++)
        {
            // More modes the higher: the density of a plate's modes is even in frequency, the ear's is not.
            var place = Elementary.Pow((i + (0.9 * plate.Unit(2 * i))) / Modes, 0.75);
            var freqHz = LowHz * Elementary.Pow(HighHz / LowHz, place);
            var level = each * Tone(freqHz, softness) * (0.4 + plate.Unit((2 * i) + 1)) * (1 + (0.5 * noise.Bipolar(i)));
            Mode.Ring(ring, level, freqHz, DecayS * (1 - (0.75 * place)), 2 * Math.PI * noise.Unit(1000 + i));
        }

        var ratio = Elementary.Pow(HighHz / LowHz, 1.0 / WashBands);
        for (var band = 0; band < WashBands; band++)
        {
            var lowHz = LowHz * Elementary.Pow(ratio, band);
            var level = WashLevel * Tone(lowHz * Math.Sqrt(ratio), softness) / Math.Sqrt(WashBands);
            new NoiseBand(level, lowHz, lowHz * ratio, DecayS * (1 - (0.15 * band)) * 0.8, WashRiseS).AddTo(ring, Streams.Of(noise, band));
        }

        new NoiseBand(StickLevel * (1 - (0.5 * softness)), 2500, 11000, 0.012).AddTo(ring, Streams.Of(noise, WashBands));
        return new KitSound([Part.From(Radiator, ring)]);
    }

    // Strong around the centre, falling off either side, the top the more the softer the stroke.
    private double Tone(double freqHz, double softness)
    {
        var octaves = Elementary.Log2(freqHz / CentreHz);
        var slope = octaves > 0 ? 3 + (6 * softness) : 4;
        return Decibels.ToGain(-slope * Math.Abs(octaves));
    }
}
