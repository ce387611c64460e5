using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>The numbers at the start of file names do not run through.</summary>
internal sealed class NumberGap : CheckRule
{
    public override Rule Rule { get; } = new(
        "A11",
        Severity.Fault,
        "A number is missing, or there twice",
        "a planned number absent; among raw files a gap or a number twice",
        "Print the missing file, or number them anew.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Takes.Where(t => t.IsMissing && t.IsDelivered))
        {
            yield return Found(take.Name, $"no {take.FileName}", $"Number {take.Number:00} is planned and not there: {take.FileName}.");
        }

        var numbers = subject.Takes.Where(t => t.IsRaw).Select(t => (t.Name, Number: Leading(t.FileName))).Where(n => n.Number is not null).OrderBy(n => n.Number).ToList();
        foreach (var (first, second) in numbers.Zip(numbers.Skip(1)))
        {
            var gap = second.Number - first.Number;
            if (gap is 0 or (> 1 and < Jump))
            {
                yield return Found(second.Name, $"{first.Number:00}, then {second.Number:00}", gap == 0 ? $"Two raw files bear the number {second.Number:00}." : $"The numbers of the raw files leave a gap between {first.Number:00} and {second.Number:00}.", Severity.Warning);
            }
        }
    }

    // A block of its own may begin at any number this far on.
    private const int Jump = 10;

    private static int? Leading(string name)
    {
        var digits = name.TakeWhile(char.IsAsciiDigit).Count();
        return digits is 2 or 3 ? int.Parse(name.AsSpan(0, digits), System.Globalization.CultureInfo.InvariantCulture) : null;
    }
}
