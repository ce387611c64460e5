using DrumPrint.Language;

namespace DrumPrint.Printing.Folder;

/// <summary>Tells which prints of an earlier run a new one takes the place of, where they were not the same.</summary>
/// <remarks>A print that only got longer replaces nothing.</remarks>
internal static class ReplacedPrints
{
    private const string OtherSound = "which sounded different";
    private const string Longer = "which were longer, and the same up to where the new ones end";
    private const string OtherWordLength = "of another word length, and perhaps of another sound";

    /// <summary>The sentences about them, before the new prints take their names; none when nothing else was there.</summary>
    public static IReadOnlyList<string> Notes(FolderVerdict verdict) =>
    [
        .. verdict.Files.Where(f => !verdict.Keeps(f))
            .Select(f => (f.Name, How: Difference(f.State)))
            .Where(r => r.How is not null)
            .GroupBy(r => r.How, r => r.Name)
            .Select(g => $"Overwritten: {Show.List([.. g])}, {g.Key}. To keep both next time, raise song.version before printing."),
    ];

    private static string? Difference(FileState state) => state switch
    {
        FileState.OtherWordLength => OtherWordLength,
        FileState.OnlyShorter => Longer,
        FileState.OtherEngine or FileState.MadeOtherwise => OtherSound,
        _ => null,
    };
}
