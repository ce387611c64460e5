using DrumPrint.Files;
using DrumPrint.Language;

namespace DrumPrint.Audio;

/// <summary>A folder outside the session that a chain names files in: one mistake, however many files it is.</summary>
/// <param name="Files">The files, in the chain's order.</param>
/// <param name="Folder">Where they lie.</param>
/// <param name="Reach">What is allowed.</param>
internal sealed record OutsideFolder(IReadOnlyList<NamedFile> Files, string Folder, SessionReach Reach)
{
    /// <summary>Finds them.</summary>
    /// <param name="reach">What is allowed.</param>
    /// <param name="files">What the chain names.</param>
    public static IReadOnlyList<OutsideFolder> Among(SessionReach reach, IEnumerable<NamedFile> files) =>
    [
        .. files.Select(f => (File: f, Folder: reach.Outside(f.File)))
            .Where(f => f.Folder is not null)
            .GroupBy(f => f.Folder!, f => f.File, StringComparer.Ordinal)
            .Select(g => new OutsideFolder([.. g], g.Key, reach)),
    ];

    /// <summary>Who names it, and how to allow it.</summary>
    public override string ToString()
    {
        var first = $"{Files[0].Kind} '{Show.Name(Files[0].Name)}'";
        var who = Files.Count == 1
            ? $"{first} names {Show.Name(Files[0].File)}, and is not read"
            : FormattableString.Invariant($"{first} and {Files.Count - 1} more name files in {Show.Name(Folder)}, and are not read");
        return $"{who}: {Reach.Advice(Folder)}";
    }
}
