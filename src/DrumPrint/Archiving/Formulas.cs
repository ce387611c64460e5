using System.Text;

namespace DrumPrint.Archiving;

/// <summary>What the guide says of each processor: its formula and where that comes from.</summary>
internal static class Formulas
{
    /// <summary>The guide's section on a processor without pictures, example and marks; null where it has none.</summary>
    /// <param name="key">The word a chain uses.</param>
    public static IReadOnlyList<string>? Of(string key)
    {
        var lines = Text("processors.md").Split('\n');
        var start = Array.IndexOf(lines, $"## {key}");
        return start < 0 ? null : [.. Plain(lines.Skip(start + 1).TakeWhile(l => !l.StartsWith("## ", StringComparison.Ordinal)))];
    }

    /// <summary>A text that is kept with the program.</summary>
    public static string Text(string name)
    {
        using var stream = typeof(Formulas).Assembly.GetManifestResourceStream($"DrumPrint.Archiving.{name}")!;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd().ReplaceLineEndings("\n");
    }

    private static IEnumerable<string> Plain(IEnumerable<string> lines)
    {
        var paragraph = new StringBuilder();
        var isExample = false;
        foreach (var line in lines.Append(""))
        {
            if (line.StartsWith("```", StringComparison.Ordinal))
            {
                isExample = !isExample;
                continue;
            }

            var isItem = line.StartsWith("- ", StringComparison.Ordinal);
            if ((line.Length == 0 || isItem) && paragraph.Length > 0)
            {
                yield return paragraph.ToString();
                paragraph.Clear();
            }

            if (!isExample && line.Length > 0 && !line.StartsWith("![", StringComparison.Ordinal))
            {
                paragraph.Append(paragraph.Length > 0 ? " " : "").Append(line.Replace("**", "", StringComparison.Ordinal).Replace("`", "", StringComparison.Ordinal).Trim());
            }
        }
    }
}
