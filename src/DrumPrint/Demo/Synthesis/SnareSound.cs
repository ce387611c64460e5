using DrumPrint.Demo.Kit;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>A 14-inch snare tuned to 198 Hz: batter head, snare-side head that moves against it, wires from 2 to
/// 9 kHz.</summary>
internal static class SnareSound
{
    private const int Frames = 24000;
    private const double PitchHz = 198;
    private const double Peak = 2.2;

    /// <param name="softness">0 for the hardest stroke, 1 for the softest.</param>
    public static KitSound Make(double softness, CounterNoise noise)
    {
        var head = new double[Frames];
        var struck = 1.06 - (0.05 * softness);
        for (var i = 0; i < Membrane.Ratios.Length; i++)
        {
            var freqHz = PitchHz * Membrane.Ratios[i];
            var level = (i == 0 ? 1 : 0.75 * (1 + (0.25 * noise.Bipolar(i))) / (i + 0.6)) * (1 - (0.04 * i * softness));
            Mode.Fall(head, level, freqHz * struck, freqHz, 0.025, 0.36 / Math.Sqrt(1 + (1.6 * i)));
        }

        var stick = new double[Frames];
        new NoiseBand(0.22 - (0.12 * softness), 1200, 8000, 0.035).AddTo(stick, Streams.Of(noise, 1));
        new NoiseBand(0.28, 400, 1200, 0.04).AddTo(stick, Streams.Of(noise, 2));
        Mode.Ring(stick, 0.10 * (1 - softness), 905, 0.14);

        var wires = new double[Frames];
        new NoiseBand(0.42, 2000, 9000, 0.28 - (0.10 * softness), 0.0015).AddTo(wires, Streams.Of(noise, 3));
        new NoiseBand(0.09, 2500, 8000, 0.50, 0.004).AddTo(wires, Streams.Of(noise, 4));

        // What the vent gives off: the air that a stroke presses out, short and dry. Above the vent's own resonance the mass of
        // that air turns it about. So the head is heard the same way up here as from above.
        var vent = new double[Frames];
        new NoiseBand(0.18 - (0.06 * softness), 700, 5200, 0.045, 0.0006).AddTo(vent, Streams.Of(noise, 5));
        Mode.Ring(vent, 0.16, 438, 0.09);

        // Softer strokes sound different, but how loud a stroke is, is for the performance to say: all peak alike.
        var top = Mix.Of(Frames, (head, 1), (stick, 1));
        var scale = Peak / Mix.Peak(top);
        return new KitSound(
        [
            Part.From(Radiators.Snare, Mix.Of(Frames, (top, scale))),
            Part.From(Radiators.SnareVent, Mix.Of(Frames, (head, 0.35 * scale), (vent, scale))),
            Part.From(Radiators.SnareUnder, Mix.Of(Frames, (head, -scale))),
            Part.From(Radiators.Wires, Mix.Of(Frames, (wires, scale))),
        ]);
    }

    /// <summary>The stick laid across the drum and clicked on the rim.</summary>
    public static KitSound MakeRimClick(CounterNoise noise)
    {
        var click = new double[Frames];
        Mode.Ring(click, 0.20, 420, 0.05);
        Mode.Ring(click, 0.30 * (1 + (0.2 * noise.Bipolar(1))), 1620, 0.060);
        Mode.Ring(click, 0.22 * (1 + (0.2 * noise.Bipolar(2))), 2480, 0.045);
        Mode.Ring(click, 0.12, 3710, 0.035);
        new NoiseBand(0.12, 900, 6000, 0.015).AddTo(click, Streams.Of(noise, 1));
        var wires = new double[Frames];
        new NoiseBand(0.03, 2000, 9000, 0.12, 0.002).AddTo(wires, Streams.Of(noise, 2));
        return new KitSound([Part.From(Radiators.Snare, click), Part.From(Radiators.Wires, wires)]);
    }
}
