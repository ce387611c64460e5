using DrumPrint.Dsp.Alignment;

namespace DrumPrint.Comparing.Measuring;

/// <summary>Asks single hits how B's microphone stands to A's.</summary>
internal static class MicrophonePair
{
    // 30 ms are 10 m of air, either way.
    private static readonly AlignmentSearch Search = new() { EarliestMs = -30, LatestMs = 30 };

    /// <summary>Takes A for the close microphone, or B where that tells more.</summary>
    /// <param name="a">The passage of A.</param>
    /// <param name="wide">The same passage of B with so many frames more before and after.</param>
    /// <param name="reach">How many.</param>
    public static PairEstimate Of(Sound a, Sound wide, int reach)
    {
        var (first, second) = (Line(a), Line(wide));
        var inPlace = second.AsMemory(reach, a.Frames);
        var (readA, readB) = (PairEstimator.Reader(first), Shifted(PairEstimator.Reader(second), reach));
        var fromA = PairEstimator.Of(HitFinder.Find(first, a.RateHz), readA, readB, a.RateHz, Search);
        if (fromA.IsDelayKnown && fromA.Polarity != PairPolarity.CannotBeTold)
        {
            return fromA;
        }

        var fromB = PairEstimator.Of(HitFinder.Find(inPlace.Span, a.RateHz), readB, readA, a.RateHz, Search);
        var isBetter = (fromB.IsDelayKnown, fromB.Confidence).CompareTo((fromA.IsDelayKnown, fromA.Confidence)) > 0;
        return isBetter ? fromB with { DelayFrames = -fromB.DelayFrames } : fromA;
    }

    private static FrameReader Shifted(FrameReader reader, int frames) => (first, into) => reader(first + frames, into);

    private static double[] Line(Sound sound)
    {
        if (sound.Channels.Length == 1)
        {
            return sound.Channels[0];
        }

        var line = new double[sound.Frames];
        for (var n = 0; n < line.Length; n++)
        {
            line[n] = sound.Channels[0][n] + sound.Channels[1][n];
        }

        return line;
    }
}
