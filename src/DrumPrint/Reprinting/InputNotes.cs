using DrumPrint.Audio;
using DrumPrint.Language;

namespace DrumPrint.Reprinting;

/// <summary>Puts into sentences what became of raw files and impulses since they were printed.</summary>
/// <param name="tracks">The raw files.</param>
/// <param name="impulses">The impulses.</param>
internal sealed class InputNotes(IReadOnlyList<FoundInput> tracks, IReadOnlyList<FoundInput> impulses)
{
    private readonly IReadOnlyList<FoundInput> _all = [.. tracks, .. impulses];

    /// <summary>Nothing of files that are where they were and as they were; files taken from one folder are one sentence.</summary>
    public IEnumerable<string> Sentences() => OtherTags().Concat(OtherSound()).Concat(OtherPlaces());

    private IEnumerable<string> OtherTags()
    {
        var files = _all.Where(f => !f.IsChanged && f.Input.FileSha256 is { } before && FileHash.Sha256(f.Path) != before).ToList();
        if (files.Count == 1)
        {
            yield return $"'{files[0].Input.Name}' ({files[0].Path}): the sound is the same, other data in the file has changed.";
        }
        else if (files.Count > 1)
        {
            yield return $"{Count(files)}: the sound is the same, other data in the files has changed ({string.Join(", ", files.Select(f => $"'{f.Input.Name}'"))}).";
        }
    }

    private IEnumerable<string> OtherSound() => _all
        .Where(f => f.IsChanged)
        .Select(f => $"'{f.Input.Name}' ({f.Path}) holds other sound than when it was printed{(f.IsElsewhere ? $", when it was {f.Input.File}" : "")}.");

    private IEnumerable<string> OtherPlaces() => _all
        .Where(f => f is { IsElsewhere: true, IsChanged: false })
        .GroupBy(f => Path.GetDirectoryName(f.Path)!, StringComparer.Ordinal)
        .Select(folder => From(folder.Key, [.. folder]));

    private string From(string folder, List<FoundInput> files)
    {
        if (files.Count == 1)
        {
            return $"'{files[0].Input.Name}' was {files[0].Input.File}; the same sound was found in {files[0].Path}.";
        }

        var renamed = files.Where(f => Path.GetFileName(f.Path) != Path.GetFileName(f.Input.File)).ToList();
        var names = string.Join(", ", renamed.Select(f => $"'{f.Input.Name}' is now {Path.GetFileName(f.Path)}, was {Path.GetFileName(f.Input.File)}"));
        return renamed.Count == 0
            ? $"{Count(files)} taken from {folder}."
            : FormattableString.Invariant($"{Count(files)} taken from {folder}; {renamed.Count} of them under another name: {names}.");
    }

    private string Count(List<FoundInput> files)
    {
        var raw = files.Count(tracks.Contains);
        return (raw, files.Count - raw) switch
        {
            (0, var others) => Words.Count(others, "impulse"),
            (_, 0) => Words.Count(raw, "raw file"),
            var (_, others) => $"{Words.Count(raw, "raw file")} and {Words.Count(others, "impulse")}",
        };
    }
}
