namespace DrumPrint.Delivering.Sheet;

/// <summary>Breaks text into lines.</summary>
internal static class TextWrap
{
    /// <summary>The lines of a text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="width">Room of a line.</param>
    /// <param name="measure">How wide a text is.</param>
    public static List<string> Lines(string text, double width, Func<string, double> measure)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(w => Cut(w, width, measure)))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && measure(longer) > width)
            {
                lines.Add(line);
                longer = word;
            }

            line = longer;
        }

        lines.Add(line);
        return lines;
    }

    // A word that is wider than its column goes on in the next line.
    private static IEnumerable<string> Cut(string word, double width, Func<string, double> measure)
    {
        while (measure(word) > width && word.Length > 1)
        {
            var length = word.Length - 1;
            while (length > 1 && measure(word[..length]) > width)
            {
                length--;
            }

            yield return word[..length];
            word = word[length..];
        }

        yield return word;
    }
}
