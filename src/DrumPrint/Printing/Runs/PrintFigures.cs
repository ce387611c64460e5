using DrumPrint.Audio;
using DrumPrint.Planning;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Printing.Runs;

/// <summary>What is known of one print: from its render, or from what an earlier run took down.</summary>
internal sealed record PrintFigures
{
    /// <summary>How far below its peak a print counts as over.</summary>
    public const double TailFloorDb = -90;

    public required PrintTarget Target { get; init; }

    public required int Channels { get; init; }

    /// <summary>Largest magnitude before rounding.</summary>
    public required double Peak { get; init; }

    /// <summary>Highest level between samples before rounding, in dBTP; −∞ for silence.</summary>
    public required double TruePeakDb { get; init; }

    /// <summary>Song frame from which it stays far below its peak.</summary>
    public required long QuietFrom { get; init; }

    /// <summary>Song frame up to which that was looked at.</summary>
    public required long TailTo { get; init; }

    public required long LatencyFrames { get; init; }

    /// <summary>What an earlier run took down; null when it was rendered now.</summary>
    public PrintMemo? Memo { get; init; }

    /// <summary>Where it was rendered; null when it was not.</summary>
    public PlannedPrint? Planned { get; init; }

    public RenderPlan? Plan { get; init; }

    /// <summary>Its new file; null when none is written.</summary>
    public WaveWriter? Writer { get; init; }

    public static PrintFigures Of(PrintTarget target, PrintMemo memo) => new()
    {
        Target = target,
        Channels = memo.Channels,
        Peak = memo.Peak,
        TruePeakDb = memo.TruePeakDb,
        QuietFrom = memo.QuietFrom,
        TailTo = memo.TailTo,
        LatencyFrames = memo.LatencyFrames,
        Memo = memo,
    };

    public static PrintFigures Of(PrintTarget target, PlannedPrint planned, RenderPlan plan, WaveWriter? writer, double tailFloor) => new()
    {
        Target = target,
        Channels = planned.Writer.Channels,
        Peak = planned.Writer.Peak,
        TruePeakDb = planned.Writer.TruePeakDb,
        QuietFrom = planned.Writer.QuietFrom(tailFloor),
        TailTo = planned.Writer.TailTo,
        LatencyFrames = planned.Latency,
        Planned = planned,
        Plan = plan,
        Writer = writer,
    };
}
