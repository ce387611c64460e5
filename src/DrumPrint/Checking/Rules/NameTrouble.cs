using System.Text.RegularExpressions;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>File names that some program will not take, or that say nothing.</summary>
internal sealed partial class NameTrouble : CheckRule
{
    public override Rule Rule { get; } = new(
        "A10",
        Severity.Warning,
        "A name that makes trouble",
        "anything but A–Z, a–z, 0–9, _ and -; over 60 characters; alike but for case; a generic name",
        "Rename the file, and the chain with it.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        // A file of many channels is told once.
        var names = subject.Takes.Where(t => t.Kind is not (TakeKind.Impulse or TakeKind.Reference)).DistinctBy(t => (t.Path, t.Channel is null ? t.Name : "")).Select(t => (t.Name, File: t.FileName)).Concat(subject.Strangers.Where(n => Path.GetExtension(n).Equals(".wav", StringComparison.OrdinalIgnoreCase)).Select(n => (Name: n, File: n))).ToList();
        foreach (var (name, file) in names)
        {
            var stem = Path.GetFileNameWithoutExtension(file);
            var odd = stem.Where(c => !char.IsAsciiLetterOrDigit(c) && c is not ('_' or '-')).Distinct().ToList();
            var why = odd.Count > 0 ? $"it holds {Show.List([.. odd.Select(c => c == ' ' ? "a space" : $"'{c}'")])}"
                : stem.Length > Longest ? $"it is {stem.Length} characters long"
                : Generic().IsMatch(stem) ? "it says nothing of what is in the file"
                : names.Any(n => n.File != file && n.File.Equals(file, StringComparison.OrdinalIgnoreCase)) ? "another differs from it by case alone"
                : null;
            if (why is not null)
            {
                yield return Found(name, Show.Name(file), $"The file name {Show.Name(file)} makes trouble: {why}.");
            }
        }
    }

    private const int Longest = 60;

    [GeneratedRegex(@"^(audio|track|take|untitled|recording|record|new|region|bounce|final|mix|file)[ _-]*\d*([ _-]\d+)*$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Generic();
}
