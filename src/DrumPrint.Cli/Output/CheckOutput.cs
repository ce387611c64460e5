using DrumPrint.Checking;
using DrumPrint.CheckPages;
using DrumPrint.Comparing;
using DrumPrint.Session;

namespace DrumPrint.Cli.Output;

/// <summary>Where a check is told: page, JSON or screen.</summary>
/// <param name="page">The page to write; null for none.</param>
/// <param name="json">Whether JSON goes to standard output.</param>
/// <param name="quiet">Whether nothing does.</param>
internal sealed class CheckOutput(string? page, bool json, bool quiet)
{
    /// <summary>Runs the check.</summary>
    /// <exception cref="UsageException">The page has nowhere to go; better told before the work than after it.</exception>
    public T Run<T>(Func<IProgress<PrintProgress>, T> job)
    {
        if (page is not null)
        {
            NamedPage.MustBeFree(page, "check.html");
        }

        return ProgressDisplay.Run(!quiet && !json, progress => job(new ToldProgress(progress)));
    }

    public void Tell(CheckReport report)
    {
        if (page is not null)
        {
            CheckPage.Write(page, report);
        }

        if (json)
        {
            CheckJson.Write(Terminal.Json(), report);
        }
        else if (!quiet)
        {
            CheckScreen.Write(report);
            if (page is not null)
            {
                Terminal.Screen().Line($"Page with pictures: {page}");
            }
        }
    }
}
