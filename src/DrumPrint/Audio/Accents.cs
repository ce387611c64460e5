using System.Text;

namespace DrumPrint.Audio;

/// <summary>Letters with accents in the one way of writing them that everybody types.</summary>
/// <remarks>A Mac may store Ü as U and two dots behind it. The program knows no language, and with that the runtime composes
/// nothing. Here are the letters of Latin-1 and those of central Europe (Unicode, canonical decompositions).</remarks>
internal static class Accents
{
    private static readonly (char Mark, string Letters, string Composed)[] Marks =
    [
        ('\u0300', "AEIOUaeiou", "ÀÈÌÒÙàèìòù"),
        ('\u0301', "AEIOUYaeiouyCNSZLRcnszlr", "ÁÉÍÓÚÝáéíóúýĆŃŚŹĹŔćńśźĺŕ"),
        ('\u0302', "AEIOUaeiou", "ÂÊÎÔÛâêîôû"),
        ('\u0303', "ANOano", "ÃÑÕãñõ"),
        ('\u0308', "AEIOUaeiouy", "ÄËÏÖÜäëïöüÿ"),
        ('\u030A', "AUau", "ÅŮåů"),
        ('\u030B', "OUou", "ŐŰőű"),
        ('\u030C', "CDENRSTZcenrsz", "ČĎĚŇŘŠŤŽčěňřšž"),
        ('\u0327', "CSTcst", "ÇŞŢçşţ"),
        ('\u0328', "AEae", "ĄĘąę"),
    ];

    /// <summary>A text with every mark joined to the letter before it, where the two have a letter of their own.</summary>
    public static string Composed(string text)
    {
        var composed = new StringBuilder(text.Length);
        foreach (var c in text)
        {
            if (composed.Length > 0 && Joined(composed[^1], c) is { } joined)
            {
                composed[^1] = joined;
            }
            else
            {
                composed.Append(c);
            }
        }

        return composed.ToString();
    }

    /// <summary>A text in which letters with a mark, joined or not, stand without it.</summary>
    public static string Without(string text)
    {
        var plain = new StringBuilder(text.Length);
        foreach (var c in text.Where(c => !Marks.Any(m => m.Mark == c)))
        {
            var (_, letters, composed) = Marks.FirstOrDefault(m => m.Composed.Contains(c, StringComparison.Ordinal));
            plain.Append(composed is null ? c : letters[composed.IndexOf(c, StringComparison.Ordinal)]);
        }

        return plain.ToString();
    }

    private static char? Joined(char letter, char mark)
    {
        foreach (var (known, letters, composed) in Marks)
        {
            if (known == mark && letters.IndexOf(letter, StringComparison.Ordinal) is >= 0 and var at)
            {
                return composed[at];
            }
        }

        return null;
    }
}
