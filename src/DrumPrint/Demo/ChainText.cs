using System.Text;

namespace DrumPrint.Demo;

/// <summary>The chain file of the session, from the text that is kept with the program.</summary>
/// <remarks>A line of that text that starts with <c>@cut </c> or <c>@full </c> belongs to that form of the session only;
/// the mark is taken off.</remarks>
internal static class ChainText
{
    private const string Resource = "DrumPrint.Demo.SlowFerry.chain.jsonc";
    private const string CutMark = "@cut ";
    private const string FullMark = "@full ";

    public static string Of(bool full)
    {
        using var stream = typeof(ChainText).Assembly.GetManifestResourceStream(Resource)!;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        var text = new StringBuilder();
        while (reader.ReadLine() is { } line)
        {
            var (mark, isWanted) = line.StartsWith(CutMark, StringComparison.Ordinal) ? (CutMark, !full)
                : line.StartsWith(FullMark, StringComparison.Ordinal) ? (FullMark, full)
                : ("", true);
            if (isWanted)
            {
                text.Append(line.AsSpan(mark.Length)).Append('\n');
            }
        }

        return text.ToString();
    }
}
