using DrumPrint.Comparing;
using DrumPrint.Comparing.Album;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Session;

namespace DrumPrint.Cli.Output;

/// <summary>Where a comparison is told: page, JSON or screen.</summary>
/// <param name="page">The page to write; null for none.</param>
/// <param name="json">Whether JSON goes to standard output.</param>
/// <param name="quiet">Whether nothing does.</param>
internal sealed class CompareOutput(string? page, bool json, bool quiet)
{
    /// <exception cref="UsageException">The page has nowhere to go; better told before the work than after it.</exception>
    public T Run<T>(Func<IProgress<PrintProgress>, T> job)
    {
        if (page is not null)
        {
            NamedPage.MustBeFree(page, "compare.html");
        }

        return ProgressDisplay.Run(!quiet && !json, progress => job(new ToldProgress(progress)));
    }

    public void Tell(ComparisonReport report)
    {
        if (page is not null)
        {
            ComparisonPage.Write(page, report);
        }

        if (json)
        {
            ComparisonJson.Write(Terminal.Json(), report);
        }
        else if (!quiet)
        {
            CompareScreen.Write(report, page);
        }
    }

    public void Tell(AlbumReport report)
    {
        if (page is not null)
        {
            AlbumPage.Write(page, report);
        }

        if (json)
        {
            AlbumJson.Write(Terminal.Json(), report);
        }
        else if (!quiet)
        {
            CompareScreen.Write(report, page);
        }
    }
}
