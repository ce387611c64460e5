using DrumPrint.Printing.Reports;

namespace DrumPrint.Cli.Output;

/// <summary>What to look at after a print: what is new in full, and what was told before by its first sentence.</summary>
internal static class FindingLines
{
    public static IEnumerable<string> Of(PrintReport report) =>
        report.Findings.Select(f => report.StandingFindings.Contains(f) ? $"Still to look at: {FirstSentence(f)}" : $"To look at: {f}");

    // A full stop inside quotes or brackets belongs to a name.
    private static string FirstSentence(string text)
    {
        var (isQuoted, depth) = (false, 0);
        for (var at = 0; at < text.Length - 1; at++)
        {
            switch (text[at])
            {
                case '\'':
                    isQuoted = !isQuoted;
                    break;
                case '(':
                    depth++;
                    break;
                case ')':
                    depth--;
                    break;
                case '.' when text[at + 1] == ' ' && !isQuoted && depth == 0:
                    return text[..(at + 1)];
            }
        }

        return text;
    }
}
