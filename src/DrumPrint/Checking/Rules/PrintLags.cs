using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Alignment;

namespace DrumPrint.Checking.Rules;

/// <summary>Where prints lie in time against the raw tracks they are made from.</summary>
internal static class PrintLags
{
    /// <summary>Prints that have one place in time, and can be asked.</summary>
    public static IEnumerable<(CheckedTake Print, PairEstimate Estimate)> Of(CheckSubject subject)
    {
        foreach (var print in subject.Delivered.Where(t => t is { Print: not null, Figures.Peak: > 1e-4 } && t.Figures.RateHz == subject.RateHz && !BusTree.IsSpread(subject.Chain!, t.Print!.Bus)))
        {
            if (LinearMix.Of(subject.Chain!, print.Print!.Bus, subject.RawsByName) is { } mix)
            {
                var hits = mix.Paths.MaxBy(p => p.Take.Figures!.Peak * Math.Max(Math.Abs(p.Left), Math.Abs(p.Right)))!.Take.Figures!.Hits;
                yield return (print, PairEstimator.Of(hits, mix.Reader(subject.Windows, -1), subject.Windows.Middle(print), subject.RateHz, new AlignmentSearch { EarliestMs = -30, LatestMs = 30, MostHits = 24 }));
            }
        }
    }
}
