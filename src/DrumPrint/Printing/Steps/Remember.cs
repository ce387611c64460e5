using DrumPrint.Printing.Reports;
using DrumPrint.Printing.Runs;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Printing.Steps;

/// <summary>Afterwards: takes down in the store what the next run need not render to know.</summary>
internal static class Remember
{
    /// <param name="setup">The run.</param>
    /// <param name="attempt">What was rendered.</param>
    /// <param name="account">What came of it, published.</param>
    public static void All(RunSetup setup, PrintAttempt attempt, RunAccount account)
    {
        if (setup.Store is not { } store)
        {
            return;
        }

        foreach (var figures in attempt.Figures.Values)
        {
            var print = account.Prints.FirstOrDefault(p => p.Number == figures.Target.Number);
            if (print is null && setup.Options.Store!.Anew)
            {
                continue; // what is known of its file from before still holds
            }

            var nullPeak = figures.Target.Kind == PrintKind.Rough ? account.NullPeak : null;

            // A run of some prints measures no difference; what was measured before still holds.
            var isNewlyProved = print is not null && nullPeak is not null && nullPeak != figures.Memo?.Written?.NullPeak;
            if (figures.Planned is not null || isNewlyProved)
            {
                store.Save(figures, attempt.TrimDb, attempt.ToCap, print is null ? null : Written(print, account.Frames, nullPeak));
            }
        }

        store.Evict();
    }

    private static WrittenMemo Written(PrintedFile print, long frames, double? nullPeak) => new(
        frames, print.AudioSha256, print.FileSha256, print.IntegratedLufs, print.CrestDb, print.RangeLu, print.MaxMomentaryLufs, print.MaxShortTermLufs, print.GainReductions, nullPeak);
}
