using DrumPrint.Comparing.Measuring;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Language;

namespace DrumPrint.Comparing.Pairs;

/// <summary>Says where B lies against A in time, and whether both push the same way.</summary>
internal static class PlaceVerdict
{
    private const double TenthFrame = 0.1;

    /// <summary>How B was moved, where it was.</summary>
    public static IEnumerable<string> Delay(Comparison comparison)
    {
        if (comparison.Alignment is { DelayFrames: not 0 and var frames } alignment)
        {
            yield return FormattableString.Invariant($"B is {Math.Abs(alignment.DelayMs):0.00} ms ({Words.Count(Math.Abs(frames), "frame")}) {(frames > 0 ? "later" : "earlier")} than A; it was lined up before measuring{Unpaired(comparison)}.");
        }
    }

    private static string Unpaired(Comparison comparison) => comparison.UnpairedFrames == 0
        ? ""
        : $", and {Words.Count(comparison.UnpairedFrames, "frame")} that only one side has left out";

    /// <summary>Where B lies against A when whole waves did not tell: by hits, as of two microphones; null where there is nothing to say.</summary>
    public static string? Place(Alignment alignment)
    {
        if (alignment.Hits is not { } hits)
        {
            return Unused(alignment);
        }

        if (hits.IsDelayKnown)
        {
            return $"{HitDelay(alignment, hits)} {HitPolarity(alignment)}";
        }

        var unused = Unused(alignment);
        return alignment.Polarity switch
        {
            PairPolarity.CannotBeTold when unused is null => "How much later or earlier B hears the hits, and whether its polarity is A's, cannot be told: no place fits clearly better than all others.",
            PairPolarity.CannotBeTold => $"{unused} {HitPolarity(alignment)}",
            _ => $"{unused ?? "How much later or earlier B hears the hits cannot be told."} {HitPolarity(alignment)}",
        };
    }

    private static string HitDelay(Alignment alignment, PairEstimate hits)
    {
        var frames = hits.DelayFrames;
        var giveOrTake = Words.Number(Math.Max(TenthFrame, hits.SpreadFrames));
        var over = $"Over {Words.Count(hits.Hits, "hit")} ";
        if (Math.Abs(frames) < Math.Max(TenthFrame, hits.SpreadFrames))
        {
            return $"{over}B hears the drum when A does, within {giveOrTake} of a frame.";
        }

        var moved = alignment.DelayFrames == 0 ? "; it was left in place" : "";
        return FormattableString.Invariant($"{over}B hears the drum {Words.Number(Math.Abs(frames))} frames ({Math.Abs(hits.DelayMs):0.00} ms, {Math.Abs(hits.DistanceM):0.00} m of air) {(frames > 0 ? "later" : "earlier")} than A, give or take {giveOrTake}{moved}.");
    }

    private static string HitPolarity(Alignment alignment) => alignment.Polarity switch
    {
        PairPolarity.Same => "Moved there, both push the same way: their polarity is the same.",
        PairPolarity.Opposite => "Moved there, they push against each other.",
        _ => "Whether its polarity is A's cannot be told: upside down it fits nearly as well, or the low end says otherwise.",
    };

    private static string? Unused(Alignment alignment) => alignment.Unused is not { } unused
        ? null
        : FormattableString.Invariant($"B fits A best {Words.Count(Math.Abs(unused.Frames), "frame")} ({Math.Abs(unused.Ms):0.00} ms) {(unused.Frames > 0 ? "later" : "earlier")}, but not by enough to be moved (correlation {Words.Number(unused.Correlation, 3)} there, {Words.Number(alignment.Correlation, 3)} where it lies); it was left in place.");
}
