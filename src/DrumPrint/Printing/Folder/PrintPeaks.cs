using DrumPrint.Printing.Reports;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>How loud a print gets, as this run or a ticket tells it.</summary>
/// <param name="FileName">The file.</param>
/// <param name="Number">First part of its name.</param>
/// <param name="Name">Second part of its name.</param>
/// <param name="PeakDbfs">Largest sample before rounding.</param>
/// <param name="TruePeakDbtp">Highest level between samples.</param>
internal sealed record PrintPeaks(string FileName, int Number, string Name, double PeakDbfs, double TruePeakDbtp)
{
    public static PrintPeaks Of(PrintedFile print) => new(print.FileName, print.Number, print.Name, print.PeakDbfs, print.TruePeakDbtp);

    public static PrintPeaks Of(RecordedPrint print) => new(print.FileName, print.Number, print.Name, print.PeakDbfs, print.TruePeakDbtp);
}
