using DrumPrint.Checking;
using DrumPrint.Session;

namespace DrumPrint.Cli.Output;

/// <summary>Where a check is told: JSON or screen.</summary>
/// <param name="json">Whether JSON goes to standard output.</param>
/// <param name="quiet">Whether nothing does.</param>
internal sealed class CheckOutput(bool json, bool quiet)
{
    public T Run<T>(Func<IProgress<PrintProgress>, T> job) =>
        ProgressDisplay.Run(!quiet && !json, progress => job(new ToldProgress(progress)));

    public void Tell(CheckReport report)
    {
        if (json)
        {
            CheckJson.Write(Terminal.Json(), report);
        }
        else if (!quiet)
        {
            CheckScreen.Write(report);
        }
    }
}
