using DrumPrint.Dsp.Numerics;
using DrumPrint.Printing.Reports;

namespace DrumPrint.Printing.Runs;

/// <summary>What a run made, as its ticket takes it down.</summary>
/// <param name="Frames">Length of every file.</param>
/// <param name="TrimDb">Common trim of all prints.</param>
/// <param name="Prints">Every file, by number.</param>
/// <param name="NullPeak">Largest difference between the sum of the playing prints and the rough; null when not all were written.</param>
/// <param name="Notes">What was done beyond the chain's levels and processors, in sentences.</param>
/// <param name="Findings">What a user should look at, in sentences.</param>
internal sealed record RunAccount(
    long Frames,
    double TrimDb,
    IReadOnlyList<PrintedFile> Prints,
    double? NullPeak,
    IReadOnlyList<string> Notes,
    IReadOnlyList<string> Findings)
{
    public double? NullPeakDbfs => NullPeak is { } peak ? Decibels.FromGain(peak) : null;
}
