using DrumPrint.Audio;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Something that is planned and absent.</summary>
internal sealed class Missing : CheckRule
{
    public override Rule Rule { get; } = new(
        "D4",
        Severity.Fault,
        "A file is missing",
        "a file that the chain names is not there",
        "Bring the file, or take it out of the chain.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        var hashes = new Dictionary<string, string?>(StringComparer.Ordinal);
        foreach (var take in subject.Takes.Where(t => t.IsMissing))
        {
            if (take.Kind == TakeKind.Reference)
            {
                yield return Found(take.Name, $"no {take.FileName}", $"The song's own mix {take.FileName} is not there, so the bench plays without it; no print needs it.", Severity.Warning);
                continue;
            }

            yield return Found(take.Name, $"no {take.FileName}", $"{(take.IsDelivered ? "The print" : "The file")} {take.FileName} is planned and not there{(Renamed(subject, take, hashes) is { } other ? $"; its samples lie in {Show.Name(other)}" : "")}.");
        }
    }

    // A print under a name of somebody's own is known by its samples. A link is none of the folder's files.
    private static string? Renamed(CheckSubject subject, CheckedTake take, Dictionary<string, string?> hashes)
    {
        if (subject.Ticket?.Prints.FirstOrDefault(p => p.FileName == take.FileName) is not { } record)
        {
            return null;
        }

        var folder = Path.GetDirectoryName(take.Path)!;
        return subject.Strangers.Where(AudioFileName.IsLikely).FirstOrDefault(n => Sha256(Path.Combine(folder, n), hashes, subject.Cancel) == record.AudioSha256);
    }

    private static string? Sha256(string path, Dictionary<string, string?> hashes, CancellationToken cancel)
    {
        if (hashes.TryGetValue(path, out var known))
        {
            return known;
        }

        try
        {
            return hashes[path] = new FileInfo(path).LinkTarget is null ? FileHash.AudioSha256(path, cancel) : null;
        }
        catch (AudioFileException)
        {
            return hashes[path] = null;
        }
    }
}
