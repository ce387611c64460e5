using DrumPrint.Session;

namespace DrumPrint.Tickets;

/// <summary>A print as it came out. Levels are to 0.01 dB.</summary>
/// <param name="Number">First part of the file name.</param>
/// <param name="Name">Second part of the file name.</param>
/// <param name="Kind">What it is.</param>
/// <param name="FileName">The file beside the ticket.</param>
/// <param name="Channels">Number of channels.</param>
/// <param name="AudioSha256">Hash of the sample bytes.</param>
/// <param name="FileSha256">Hash of the whole file.</param>
public sealed record RecordedPrint(int Number, string Name, PrintKind Kind, string FileName, int Channels, string AudioSha256, string FileSha256)
{
    /// <summary>Largest sample before rounding; −∞ for silence.</summary>
    public double PeakDbfs { get; init; } = double.NegativeInfinity;

    /// <summary>Highest level between samples before rounding; −∞ for silence, and where an earlier version did not take it down.</summary>
    public double TruePeakDbtp { get; init; } = double.NegativeInfinity;

    /// <summary>Gated loudness; −∞ without a reading.</summary>
    public double IntegratedLufs { get; init; } = double.NegativeInfinity;

    public double RangeLu { get; init; }

    /// <summary>Loudest 400 ms; −∞ without a reading.</summary>
    public double MaxMomentaryLufs { get; init; } = double.NegativeInfinity;

    /// <summary>Loudest 3 s; −∞ without a reading.</summary>
    public double MaxShortTermLufs { get; init; } = double.NegativeInfinity;

    public IReadOnlyList<GainReduction> GainReductions { get; init; } = [];

    /// <summary>Processing delay that was taken out.</summary>
    public long LatencyFrames { get; init; }

    /// <summary>Seconds after the raw tracks end until it stays 90 dB below its peak.</summary>
    public double TailS { get; init; }
}
