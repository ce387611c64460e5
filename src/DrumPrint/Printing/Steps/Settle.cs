using DrumPrint.Printing.Runs;
using DrumPrint.Session;

namespace DrumPrint.Printing.Steps;

/// <summary>Second step: settles where every file ends.</summary>
/// <param name="End">Song frame at which it does.</param>
/// <param name="Frames">Length of every file.</param>
internal sealed record Settle(long End, long Frames)
{
    /// <summary>Settles it by the longest tail. Clicks have none worth waiting for.</summary>
    public static Settle Of(RunSetup setup, PrintAttempt attempt)
    {
        var end = setup.Planner.End(attempt.Figures.Values.Where(f => f.Target.Kind != PrintKind.Click).Select(f => f.QuietFrom).DefaultIfEmpty().Max());
        return new Settle(end, end - setup.Run.From);
    }
}
