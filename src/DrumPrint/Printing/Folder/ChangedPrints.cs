using DrumPrint.Language;

namespace DrumPrint.Printing.Folder;

/// <summary>Tells of files that are kept aside when new prints take their names, and why.</summary>
internal static class ChangedPrints
{
    /// <summary>Where they are kept, in the folder of the prints.</summary>
    public const string FolderName = "changed";

    private const string GoingBack = "Printed with other settings before a newer version was";
    private const string Changed = "Changed or damaged after printing";
    private const string Unproven = "Printed by an earlier version, which took down nothing by which to tell whether they were changed since";

    /// <summary>What is to be told of them, in sentences; none when there are none.</summary>
    /// <param name="verdict">What lies in the folder.</param>
    /// <param name="folder">The folder.</param>
    public static IReadOnlyList<string> Notes(FolderVerdict verdict, string folder) =>
    [
        .. verdict.Kept
            .GroupBy(f => verdict.IsGoingBack ? GoingBack : f.State == FileState.Unproven ? Unproven : Changed, f => f.Name)
            .Select(g => $"{g.Key}: {Show.List([.. g])}. The new {(g.Count() == 1 ? "print takes its name; the file that was there is" : "prints take their names; the files that were there are")} kept in {Path.Combine(folder, FolderName)}."),
    ];
}
