using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>Snare wires that buzz because another drum moves the head they lie on.</summary>
internal static class Rattle
{
    // Time a sound takes over the half metre from the kick or a tom to the snare.
    private const int TravelFrames = 74;

    // The wires lift off once the head moves by this part of a full stroke, so they buzz in bursts.
    private const double LiftOff = 0.06;

    /// <summary>The rattle that goes with the slow motion of a head.</summary>
    public static double[] From(double[] motion, double level, double softness, CounterNoise noise)
    {
        var wires = new double[motion.Length];
        new NoiseBand(level * Elementary.Exp(-softness), 2000, 9000, 2).AddTo(wires, noise);
        for (var n = wires.Length - 1; n >= 0; n--)
        {
            var moved = n < TravelFrames ? 0 : Math.Abs(motion[n - TravelFrames]);
            wires[n] *= Math.Max(0, moved - LiftOff);
        }

        return wires;
    }
}
