using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace DrumPrint.Conformance;

/// <summary>The sheet docs/conformance.md: every check with what was expected and what was measured.</summary>
internal static partial class Sheet
{
    private const string Head = """
        # Conformance

        What each processor and measurement must do by a published source, and what it does. The figures are measured, not
        copied: `dotnet run -c Release --project tools/DrumPrint.Conformance` measures every line again and writes this sheet; the
        tests run the same measurements and fail when a bar is missed without being marked here, or when this sheet is stale.
        Where no source is named there is none: then it says *common practice* or *own bar*. **from memory** marks what was not
        read in the source itself. A bar that is not met is marked <font color="red">**NOT MET**</font> with the reason.


        """;

    public static string Text()
    {
        Parallel.ForEach(AllChecks.Flat.Where(c => !c.RunsAlone), check => _ = check.Measured);
        var text = new StringBuilder(Head);
        var all = AllChecks.Flat.ToArray();
        text.Append(CultureInfo.InvariantCulture, $"{all.Length} checks; {all.Count(c => c.IsMet)} met, {all.Count(c => !c.IsMet)} not met.\n");
        foreach (var (title, note, checks) in AllChecks.Sections)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n## {title}\n");
            text.Append(note.Length == 0 ? "" : $"{note.Trim()}\n\n");
            text.Append("| check | source | expected | tolerance | measured |\n|---|---|---|---|---|\n");
            foreach (var check in checks)
            {
                text.Append(CultureInfo.InvariantCulture, $"| {check.Claim} | {check.Source} | {check.Bar.Expected} | {check.Bar.Tolerance} | {Measured(check)} |\n");
            }
        }

        return text.ToString();
    }

    /// <summary>The first line in which two sheets differ by more than the last digit of a measured figure; null when they are
    /// the same.</summary>
    public static string? Difference(string committed, string fresh)
    {
        var (a, b) = (committed.Split('\n'), fresh.Split('\n'));
        for (var line = 0; line < Math.Max(a.Length, b.Length); line++)
        {
            var (old, now) = (line < a.Length ? a[line] : "", line < b.Length ? b[line] : "");
            if (old != now && !DiffersInTheLastDigit(old, now))
            {
                return string.Create(CultureInfo.InvariantCulture, $"line {line + 1} is '{old}', now it would be '{now}'");
            }
        }

        return null;
    }

    private static string Measured(Check check) => check.IsMet
        ? check.Bar.Shown(check.Measured)
        : $"<font color=\"red\">**NOT MET** {check.Bar.Shown(check.Measured)}</font> {check.Missed}";

    // Oracles use the platform's own functions, which differ in their last bit from system to system.
    private static bool DiffersInTheLastDigit(string old, string now)
    {
        var (a, b) = (old.Split('|'), now.Split('|'));
        if (a.Length != b.Length || a.Length < 3 || !a.AsSpan(0, a.Length - 2).SequenceEqual(b.AsSpan(0, b.Length - 2)))
        {
            return false;
        }

        var (x, y) = (Figure().Match(a[^2]), Figure().Match(b[^2]));
        return x.Success && y.Success
            && a[^2].Replace(x.Value, "", StringComparison.Ordinal) == b[^2].Replace(y.Value, "", StringComparison.Ordinal)
            && x.Value.Length - x.Value.IndexOf('.', StringComparison.Ordinal) == y.Value.Length - y.Value.IndexOf('.', StringComparison.Ordinal)
            && Math.Abs(Value(x) - Value(y)) <= 1.01 * Step(x.Value);
    }

    private static double Value(Match figure) => double.Parse(figure.Value.Replace('−', '-'), CultureInfo.InvariantCulture);

    private static double Step(string figure) => figure.Contains('.', StringComparison.Ordinal) ? Math.Pow(10, figure.IndexOf('.', StringComparison.Ordinal) + 1 - figure.Length) : 1;

    [GeneratedRegex(@"−?\d+(\.\d+)?")]
    private static partial Regex Figure();
}
