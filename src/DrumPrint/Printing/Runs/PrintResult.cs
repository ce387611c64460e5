using DrumPrint.Dsp.Numerics;
using DrumPrint.Printing.Reports;
using DrumPrint.Store;

namespace DrumPrint.Printing.Runs;

/// <summary>Puts together what is told of one file of a run.</summary>
internal static class PrintResult
{
    /// <param name="setup">The run.</param>
    /// <param name="figures">The file, finished or known.</param>
    /// <param name="end">Song frame at which it ends.</param>
    public static PrintedFile Of(RunSetup setup, PrintFigures figures, long end)
    {
        var target = figures.Target;
        var bus = target.Print is null ? null : setup.Chain.Buses.First(b => b.Name == target.Print.Bus);
        var isNew = figures is { Planned: not null, Writer: not null };
        var written = isNew ? Written(setup, figures, end) : figures.Memo!.Written!;
        return new PrintedFile(
            target.Kind,
            target.Number,
            target.Name,
            setup.NameOf(target),
            figures.Channels,
            bus?.Feeds ?? [],
            Decibels.FromGain(figures.Peak),
            written.IntegratedLufs,
            written.GainReductions,
            (double)setup.Planner.Tail(figures.QuietFrom) / setup.Chain.Song.RateHz,
            figures.LatencyFrames,
            written.AudioSha256,
            written.FileSha256)
        {
            TruePeakDbtp = figures.TruePeakDb,
            CrestDb = written.CrestDb,
            RangeLu = written.RangeLu,
            MaxMomentaryLufs = written.MaxMomentaryLufs,
            MaxShortTermLufs = written.MaxShortTermLufs,
            IsUnchanged = !isNew,
        };
    }

    // What a file that has just been written is, as the store would take it down.
    private static WrittenMemo Written(RunSetup setup, PrintFigures figures, long end)
    {
        var (sound, writer) = (figures.Planned!.Writer, figures.Writer!);
        return new WrittenMemo(
            end - setup.Run.From,
            writer.AudioSha256!,
            writer.FileSha256!,
            sound.Loudness.IntegratedLufs,
            sound.CrestDb(end - setup.Run.From),
            sound.Loudness.RangeLu,
            sound.Loudness.MomentaryMaxLufs,
            sound.Loudness.ShortTermMaxLufs,
            ReductionSummary.Of(setup.Chain, figures.Target, figures.Plan!.Traces, (setup.Run.From, end)),
            NullPeak: null);
    }
}
