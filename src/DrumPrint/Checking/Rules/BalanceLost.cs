using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A print has been turned up or down since the rough was made.</summary>
internal sealed class BalanceLost : CheckRule
{
    public override Rule Rule { get; } = new(
        "C6",
        Severity.Fault,
        "The balance with the rough is lost",
        "best gain of a print against the rough over 0.1 dB from unity, beyond what cannot be told",
        "Print the file again at its level.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var (print, gain, doubt) in subject.Unity?.Gains ?? [])
        {
            var offDb = TakeFigures.Db(Math.Abs(gain));
            if (Math.Abs(offDb) > MostDb && Math.Abs(gain - 1) > doubt && doubt < TellsS)
            {
                yield return Found(print.Name, $"{Words.Signed(-offDb)} dB", $"The print is {Words.Number(Math.Abs(offDb))} dB {(offDb < 0 ? "louder" : "softer")} in its file than in the rough{Surely(subject, print, gain, doubt)}.") with { Value = Math.Abs(offDb) };
            }
        }
    }

    private const double MostDb = 0.1;
    private const double TellsS = 1;

    // The ticket knows the peak to a hundredth; the rough alone leaves what other prints may have done to it.
    private static string Surely(CheckSubject subject, CheckedTake print, double gain, double doubt) =>
        subject.Ticket?.Prints.FirstOrDefault(p => p.FileName == print.FileName) is { PeakDbfs: var peak } && double.IsFinite(peak)
            ? $"; its peak is {Words.Number(Math.Abs(print.Figures!.PeakDb - peak))} dB {(print.Figures.PeakDb > peak ? "above" : "below")} the one in the ticket"
            : $", to within {Words.Number(Math.Max(MostDb, TakeFigures.Db((Math.Abs(gain) + doubt) / Math.Abs(gain))))} dB";
}
