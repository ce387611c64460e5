using DrumPrint.Comparing;

namespace DrumPrint.Cli.Output;

/// <summary>A page as the command line names it.</summary>
internal static class NamedPage
{
    /// <summary>Passes where a page can be written.</summary>
    /// <param name="page">What was named.</param>
    /// <param name="example">A name that would do.</param>
    /// <exception cref="UsageException">It is no name or a folder, its folder is not there, or a file that is no page would be lost.</exception>
    public static void MustBeFree(string page, string example)
    {
        if (string.IsNullOrWhiteSpace(page))
        {
            throw new UsageException($"--page needs a file name, such as {example}.");
        }

        if (Directory.Exists(page))
        {
            throw new UsageException($"--page {page}: this is a folder. A page is a file in it: --page {Path.Combine(page, example)}");
        }

        if (File.Exists(page) && !PageText.IsPage(page))
        {
            throw new UsageException($"--page {page}: that file is not a page of DrumPrint and would be lost. Give another name, such as {example}. Nothing was written.");
        }

        if (!Directory.Exists(Path.GetDirectoryName(Path.GetFullPath(page))))
        {
            throw new UsageException($"--page {page}: there is no folder {Path.GetDirectoryName(page)}.");
        }
    }
}
