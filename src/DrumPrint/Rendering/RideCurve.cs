using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Rendering;

/// <summary>The gain of a feed over song time, from its rides.</summary>
/// <param name="stretches">Stretches in song frames.</param>
internal sealed class RideCurve(IReadOnlyList<RideStretch> stretches)
{
    /// <summary>Writes the gain of each frame from <paramref name="frame"/> on, on top of <paramref name="gain"/>.</summary>
    /// <returns>False when no ride touches the stretch, and nothing was written.</returns>
    public bool Fill(long frame, double gain, Span<double> gains)
    {
        var touched = false;
        foreach (var stretch in stretches)
        {
            if (frame + gains.Length <= stretch.From || frame >= stretch.To + stretch.FadeFrames)
            {
                continue;
            }

            if (!touched)
            {
                gains.Fill(gain);
                touched = true;
            }

            for (var n = 0; n < gains.Length; n++)
            {
                gains[n] *= stretch.GainAt(frame + n);
            }
        }

        return touched;
    }
}

/// <summary>One ride in frames.</summary>
/// <param name="From">First frame of the change.</param>
/// <param name="To">First frame of the way back.</param>
/// <param name="FadeFrames">Length of each change.</param>
/// <param name="Db">Level change.</param>
internal sealed record RideStretch(long From, long To, long FadeFrames, double Db)
{
    private readonly double _change = Decibels.ToGain(Db) - 1;

    /// <summary>Linear gain: 1 outside, the ride's gain inside, straight lines between.</summary>
    public double GainAt(long frame)
    {
        var there = Part(frame - From);
        var back = Part(frame - To);
        return 1 + (_change * (there - back));
    }

    private double Part(long frames) => frames < 0 ? 0 : frames >= FadeFrames ? 1 : (double)(frames + 1) / (FadeFrames + 1);
}
