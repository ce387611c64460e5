using DrumPrint.Demo.Kit;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>A 22-inch kick: 58 Hz falling to 49, the knock of the beater and its click, and the snare's wires that
/// answer.</summary>
internal static class KickSound
{
    private const int Frames = 30000;
    private const double LowHz = 49;
    private const double Struck = 58 / LowHz;

    /// <param name="softness">0 for the hardest stroke, 1 for the softest.</param>
    public static KitSound Make(double softness, CounterNoise noise)
    {
        var deep = new double[Frames];
        Mode.Fall(deep, 1, LowHz * Struck, LowHz, 0.06, 0.50);

        var body = new double[Frames];
        for (var i = 1; i < Membrane.Ratios.Length; i++)
        {
            var freqHz = LowHz * Membrane.Ratios[i];
            var level = 0.42 * (1 + (0.15 * noise.Bipolar(i))) / (i + 0.5);
            Mode.Fall(body, level, freqHz * Struck, freqHz, 0.04, 0.30 / Math.Sqrt(i + 1));
        }

        // The beater's knock changes its colour on the way through the shell.
        var knock = new double[Frames];
        new NoiseBand(0.15, 260, 700, 0.06).AddTo(knock, Streams.Of(noise, 1));
        var shell = new double[Frames];
        new NoiseBand(0.08, 260, 700, 0.07).AddTo(shell, Streams.Of(noise, 4));
        var click = new double[Frames];
        new NoiseBand(0.26 - (0.17 * softness), 1800, 7000, 0.022).AddTo(click, Streams.Of(noise, 2));

        return new KitSound(
        [
            Part.From(Radiators.KickInside, Mix.Of(Frames, (deep, 0.45), (body, 0.8), (knock, 1), (click, 1.4))),
            Part.From(Radiators.KickFront, Mix.Of(Frames, (deep, 0.9), (body, 0.5), (knock, 0.25), (shell, 1), (click, 0.12))),
            Part.From(Radiators.KickBack, Mix.Of(Frames, (body, 0.2), (knock, 0.2), (click, 0.35))),
            Part.From(Radiators.Wires, Rattle.From(deep, 0.09, softness, Streams.Of(noise, 3))),
        ]);
    }
}
