using Spectre.Console.Rendering;

namespace DrumPrint.Cli.Output;

/// <summary>How much room text takes, and where it may be broken.</summary>
internal static class TextWidth
{
    /// <summary>Columns a text takes on a screen.</summary>
    public static int Of(string text) => text.All(c => c is >= ' ' and <= '~') ? text.Length : new Segment(text).CellCount();

    /// <summary>Lines of a text, broken between words only: a word that is wider than the room stands whole. Lines after the first are set in
    /// as far as the first.</summary>
    public static IEnumerable<string> Wrap(string text, int width)
    {
        if (Of(text) <= width)
        {
            yield return text;
            yield break;
        }

        var indent = text[..^text.TrimStart(' ').Length];
        var line = indent;
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > indent.Length && Of(line) + 1 + Of(word) > width)
            {
                yield return line;
                line = indent;
            }

            line += line.Length > indent.Length ? " " + word : word;
        }

        yield return line;
    }
}
