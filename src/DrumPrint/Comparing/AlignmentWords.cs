using DrumPrint.Comparing.Pairs;
using DrumPrint.Language;

namespace DrumPrint.Comparing;

/// <summary>What two microphones of one take have to do with each other, for the top of their page.</summary>
internal static class AlignmentWords
{
    /// <summary>Delay, polarity and how sure both are, as HTML, with the line for the chain; empty for anything but two files.</summary>
    public static string Html(ComparisonReport report)
    {
        var alignment = report.Main.Alignment;
        if (!report.IsOfFiles || report.Main.Null.IsIdentical)
        {
            return "";
        }

        if (!alignment.IsTelling)
        {
            return Paragraph($"Delay and polarity cannot be told: the two have too little in common (correlation {Words.Number(alignment.Correlation, 2)}).", null);
        }

        var (a, b) = (report.Main.A.Name, report.Main.B.Name);
        var ms = Words.Number(Math.Abs(alignment.DelayMs), 2);
        var time = alignment.DelayFrames == 0 ? $"{b} needs no delay against {a}" : $"{b} is {ms} ms {(alignment.DelayFrames > 0 ? "later" : "earlier")} than {a}";
        var polarity = alignment.IsInverted ? "their polarity is opposite" : "their polarity is the same";
        var lines = new List<string>();
        if (alignment.DelayFrames != 0)
        {
            lines.Add($"\"delay_ms\": {ms}");
        }

        if (alignment.IsInverted)
        {
            lines.Add("\"polarity\": \"inverted\"");
        }

        return Paragraph(
            $"{time}; {polarity}. Lined up, their correlation is {Words.Number(alignment.Correlation, 2)} (1 is the same, 0 nothing in common)."
                + (lines.Count > 0 ? $" For the track of {(alignment.DelayFrames >= 0 ? a : b)}:" : ""),
            lines.Count > 0 ? string.Join(", ", lines) : null);
    }

    private static string Paragraph(string text, string? line) =>
        $"<p class=\"alignment\" id=\"alignment\">{PageText.Html(text)}{(line is null ? "" : $" <code>{PageText.Html(line)}</code>")}</p>";
}
