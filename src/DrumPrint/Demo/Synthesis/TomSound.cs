using DrumPrint.Demo.Kit;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>A tom: pitch that falls after the blow, long decay, and snare wires that answer.</summary>
internal static class TomSound
{
    // Two heads and the air between them pull the upper modes closer to whole ratios than those of a bare membrane.
    private static readonly double[] Ratios = [1, 1.50, 1.98, 2.28, 2.44, 2.90, 3.35];

    public static KitSound MakeRack(double softness, CounterNoise noise) => Make(122, 0.85, 48000, Radiators.Rack, null, softness, noise);

    public static KitSound MakeFloor(double softness, CounterNoise noise) => Make(78, 1.25, 67200, Radiators.Floor, Radiators.FloorUnder, softness, noise);

    private static KitSound Make(double pitchHz, double decayS, int frames, Radiator batter, Radiator? under, double softness, CounterNoise noise)
    {
        var head = new double[frames];
        var struck = 1.12 - (0.08 * softness);
        for (var i = 0; i < Ratios.Length; i++)
        {
            var freqHz = pitchHz * Ratios[i];
            var level = i == 0 ? 1 : 0.55 * (1 + (0.2 * noise.Bipolar(i))) / (i + 0.2);
            Mode.Fall(head, level, freqHz * struck, freqHz, 0.07, decayS / (1 + (0.9 * i)));
        }

        var stick = new double[frames];
        new NoiseBand(0.20 - (0.12 * softness), 900, 5500, 0.025).AddTo(stick, Streams.Of(noise, 1));
        new NoiseBand(0.14, 250, 900, 0.05).AddTo(stick, Streams.Of(noise, 2));

        var parts = new List<Part>
        {
            Part.From(batter, Mix.Of(frames, (head, 1), (stick, 1))),
            Part.From(Radiators.Wires, Rattle.From(head, 0.12, softness, Streams.Of(noise, 3))),
        };
        if (under is not null)
        {
            parts.Add(Part.From(under, Mix.Of(frames, (head, -0.8))));
        }

        return new KitSound(parts);
    }
}
