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
        foreach (var take in subject.Takes.Where(t => t.IsMissing))
        {
            yield return Found(take.Name, $"no {take.FileName}", $"{(take.IsDelivered ? "The print" : "The file")} {take.FileName} is planned and not there{(Renamed(subject, take) is { } other ? $"; its samples lie in {Show.Name(other)}" : "")}.");
        }
    }

    // A print under a name of somebody's own is known by its samples.
    private static string? Renamed(CheckSubject subject, CheckedTake take) =>
        subject.Ticket?.Prints.FirstOrDefault(p => p.FileName == take.FileName) is { } record
            ? subject.Strangers.Where(AudioFileName.IsLikely).FirstOrDefault(n => Sha256(Path.Combine(Path.GetDirectoryName(take.Path)!, n)) == record.AudioSha256)
            : null;

    private static string? Sha256(string path)
    {
        try
        {
            using var reader = AudioReader.Open(path);
            reader.Skip(reader.Info.Frames);
            return reader.AudioSha256;
        }
        catch (AudioFileException)
        {
            return null;
        }
    }
}
