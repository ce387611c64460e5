using DrumPrint.Session;

namespace DrumPrint.Store;

/// <summary>What a run found out about one print, so that a later run need not render it to know.</summary>
/// <param name="Name">The print, as people know it.</param>
/// <param name="Channels">1 or 2.</param>
/// <param name="Peak">Largest magnitude before rounding.</param>
/// <param name="QuietFrom">Song frame from which it stays 90 dB below its peak.</param>
/// <param name="TailTo">Song frame up to which that was looked at.</param>
/// <param name="Cap">Song frame at which the run's renders ended at the latest.</param>
/// <param name="LatencyFrames">Processing delay that was taken out.</param>
/// <param name="Written">The file; null when it was measured only.</param>
internal sealed record PrintMemo(string Name, int Channels, double Peak, long QuietFrom, long TailTo, long Cap, long LatencyFrames, WrittenMemo? Written)
{
    /// <summary>Highest level between samples, in dBTP; −∞ for silence.</summary>
    public double TruePeakDb { get; init; } = double.NegativeInfinity;

    /// <summary>Whether a run whose renders end elsewhere would have looked at as much of it.</summary>
    public bool HoldsFor(long cap) => cap == Cap || TailTo < Math.Min(cap, Cap);

    /// <summary>Whether two runs found out the same of a print; where one only measured it, no more is compared.</summary>
    public bool AgreesWith(PrintMemo other) =>
        (Channels, QuietFrom, LatencyFrames) == (other.Channels, other.QuietFrom, other.LatencyFrames)
        && Peak.Equals(other.Peak)
        && TruePeakDb.Equals(other.TruePeakDb)
        && (Written is not { } written || other.Written is not { } otherWritten || written.Frames != otherWritten.Frames || written.AudioSha256 == otherWritten.AudioSha256);
}

/// <summary>A print as it was written.</summary>
/// <param name="Frames">Length.</param>
/// <param name="AudioSha256">Hash of its samples.</param>
/// <param name="FileSha256">Hash of the file.</param>
/// <param name="IntegratedLufs">Gated loudness.</param>
/// <param name="CrestDb">Peak over mean level.</param>
/// <param name="RangeLu">Loudness range.</param>
/// <param name="MaxMomentaryLufs">Loudest 400 ms.</param>
/// <param name="MaxShortTermLufs">Loudest 3 s.</param>
/// <param name="GainReductions">Work of its processors.</param>
/// <param name="NullPeak">On a rough: largest difference to the sum of the prints; null when it was not measured.</param>
internal sealed record WrittenMemo(
    long Frames,
    string AudioSha256,
    string FileSha256,
    double IntegratedLufs,
    double CrestDb,
    double RangeLu,
    double MaxMomentaryLufs,
    double MaxShortTermLufs,
    IReadOnlyList<GainReduction> GainReductions,
    double? NullPeak);
