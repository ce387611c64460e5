using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Planning;

namespace DrumPrint.Prints;

/// <summary>Sums up the gain curve of a processor.</summary>
internal static class GainReductions
{
    private const float Working = 0.98855309f; // −0.1 dB

    /// <summary>Null for a processor that does not move the gain.</summary>
    /// <param name="stage">The processor, its render over.</param>
    /// <param name="frames">Frames of the render that count: a last block may run past its end.</param>
    public static GainReduction? Of(PlannedStage stage, long frames)
    {
        if (stage.Node.Processor is not IGainReducer reducer)
        {
            return null;
        }

        var working = new List<float>();
        var curve = reducer.GainCurve;
        foreach (var gain in curve.LowestGain[..(int)Math.Min(curve.LowestGain.Length, frames / curve.WindowFrames)])
        {
            if (gain <= Working)
            {
                working.Add(gain);
            }
        }

        working.Sort();
        return working.Count == 0
            ? new GainReduction(stage.Stage.Definition.Key, 0, 0)
            : new GainReduction(stage.Stage.Definition.Key, -Decibels.FromGain(working[working.Count / 2]), -Decibels.FromGain(working[0]));
    }
}
