using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Printing.Runs;

/// <summary>Sums up the gain curves of the processors that a print has gone through.</summary>
internal static class ReductionSummary
{
    private const float Working = 0.98855309f; // −0.1 dB

    /// <summary>Those of a print: in its own bus, then in every bus that feeds it. A rough has only its own, for all others stand with
    /// the prints it sums.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="target">The print.</param>
    /// <param name="traces">What the processors of each bus did, the render over; the drum bus under an empty name.</param>
    /// <param name="stretch">Song frames of the file, from the first to one past the last; what the render did outside does not count.</param>
    public static IReadOnlyList<GainReduction> Of(Chain chain, PrintTarget target, IReadOnlyDictionary<string, IReadOnlyList<GainTrace>> traces, (long From, long To) stretch) => target switch
    {
        { Print: { } print } => [.. FeedingBuses.Of(chain, print.Bus).SelectMany(b => traces[b].Select(t => Of(t, stretch) with { Bus = b == print.Bus ? null : b }))],
        { Kind: PrintKind.RoughWithBus } => [.. traces[""].Select(t => Of(t, stretch))],
        _ => [],
    };

    private static GainReduction Of(GainTrace trace, (long From, long To) stretch)
    {
        var working = new List<float>();
        foreach (var gain in trace.Within(stretch.From, stretch.To))
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
