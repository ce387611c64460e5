using DrumPrint.Dsp.Numerics;
using DrumPrint.Planning;

namespace DrumPrint.Prints;

/// <summary>Sums up the gain curve of a processor.</summary>
internal static class GainReductions
{
    private const float Working = 0.98855309f; // −0.1 dB

    /// <param name="trace">What the processor did, its render over.</param>
    /// <param name="frames">Song frame at which the print ends; what the render did past it does not count.</param>
    public static GainReduction Of(GainTrace trace, long frames)
    {
        var working = new List<float>();
        foreach (var gain in trace.Until(frames))
        {
            if (gain <= Working)
            {
                working.Add(gain);
            }
        }

        working.Sort();
        return working.Count == 0
            ? new GainReduction(trace.Processor, 0, 0)
            : new GainReduction(trace.Processor, -Decibels.FromGain(working[working.Count / 2]), -Decibels.FromGain(working[0]));
    }
}
