using DrumPrint.Dsp.Numerics;
using DrumPrint.Printing.Reports;

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
        var result = new PrintedFile(
            target.Kind,
            target.Number,
            target.Name,
            setup.NameOf(target),
            figures.Channels,
            bus?.Feeds ?? [],
            Decibels.FromGain(figures.Peak),
            0,
            [],
            (double)setup.Planner.Tail(figures.QuietFrom) / setup.Chain.Song.RateHz,
            figures.LatencyFrames,
            "",
            "")
        {
            TruePeakDbtp = figures.TruePeakDb,
        };
        if (figures is { Planned: { } planned, Writer: { } writer })
        {
            return result with
            {
                IntegratedLufs = planned.Writer.Loudness.IntegratedLufs,
                CrestDb = planned.Writer.CrestDb(end - setup.Run.From),
                RangeLu = planned.Writer.Loudness.RangeLu,
                MaxMomentaryLufs = planned.Writer.Loudness.MomentaryMaxLufs,
                MaxShortTermLufs = planned.Writer.Loudness.ShortTermMaxLufs,
                GainReductions = ReductionSummary.Of(setup.Chain, target, figures.Plan!.Traces, end),
                AudioSha256 = writer.AudioSha256,
                FileSha256 = writer.FileSha256,
            };
        }

        var written = figures.Memo!.Written!;
        return result with
        {
            IntegratedLufs = written.IntegratedLufs,
            CrestDb = written.CrestDb,
            RangeLu = written.RangeLu,
            MaxMomentaryLufs = written.MaxMomentaryLufs,
            MaxShortTermLufs = written.MaxShortTermLufs,
            GainReductions = written.GainReductions,
            AudioSha256 = written.AudioSha256,
            FileSha256 = written.FileSha256,
            IsUnchanged = true,
        };
    }
}
