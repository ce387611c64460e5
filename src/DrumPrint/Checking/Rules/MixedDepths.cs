using DrumPrint.Audio;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Raw files of one session have several word lengths.</summary>
internal sealed class MixedDepths : CheckRule
{
    public override Rule Rule { get; } = new(
        "A5",
        Severity.Warning,
        "Mixed word lengths",
        "more than one of 16, 24 and 32 bit",
        "Export all of them alike.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var group in new[] { subject.Raws.ToList(), subject.Delivered.ToList() })
        {
            var kinds = group.GroupBy(t => t.Info!.Encoding).OrderByDescending(g => g.Count()).ToList();
            if (kinds.Count > 1)
            {
                var words = kinds.Select(k => $"{k.Count()} at {k.First().Info!.ValidBits} bit{(k.First().Info!.Encoding.IsFloat() ? " float" : "")}").ToList();
                yield return Found("", Show.List(words), $"The files are not of one word length: {Show.List(words)}. Odd one out: {Show.Some([.. kinds.Skip(1).SelectMany(k => k).Select(t => t.Name)])}.");
            }
        }
    }
}
