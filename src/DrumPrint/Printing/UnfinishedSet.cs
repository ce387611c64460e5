using DrumPrint.Files;
using DrumPrint.Session;

namespace DrumPrint.Printing;

/// <summary>Tells of folders in which a print was stopped while its files took their names: they may be of two prints.</summary>
public static class UnfinishedSet
{
    /// <summary>The sentence about what a command was given; null when it holds no such folder.</summary>
    /// <param name="target">A folder of prints, a session folder, or a file.</param>
    public static string? Note(string target)
    {
        ArgumentNullException.ThrowIfNull(target);
        return Folders(target).FirstOrDefault(SetJournal.IsIn) is { } folder
            ? $"{folder} holds no whole set: the last print to it was stopped while its files took their names, so they may be of two prints. Print again to finish it."
            : null;
    }

    private static string[] Folders(string target) => Directory.Exists(target)
        ? [target, Path.Combine(target, PrintFileName.Folder)]
        : [Path.GetDirectoryName(Path.GetFullPath(target)) ?? target];
}
