using System.Buffers;
using System.Globalization;

namespace DrumPrint.Language;

/// <summary>Repeats what a file says so that it fits a line on a screen.</summary>
internal static class Show
{
    private const int Longest = 60;
    private const int LongestList = 12;

    private static readonly SearchValues<char> Controls = SearchValues.Create([.. Enumerable.Range(0, 0x100).Select(c => (char)c).Where(char.IsControl)]);

    /// <summary>A name without control characters and not longer than a line can bear.</summary>
    public static string Name(string name)
    {
        var clean = name.AsSpan().ContainsAny(Controls) ? string.Concat(name.Select(c => char.IsControl(c) ? '\uFFFD' : c)) : name;
        return clean.Length <= Longest ? clean : clean[..Longest] + "…";
    }

    public static string Number(double number) => number.ToString("0.######", CultureInfo.InvariantCulture);

    /// <summary>Words joined as people say them: a, b and c.</summary>
    public static string List(IReadOnlyList<string> words, string last = "and") => words.Count switch
    {
        0 => "",
        1 => words[0],
        _ => $"{string.Join(", ", words.Take(words.Count - 1))} {last} {words[^1]}",
    };

    /// <summary>Words joined in the same way, not more than a line or two of them.</summary>
    public static string Some(IReadOnlyList<string> words) => words.Count <= LongestList
        ? List(words)
        : FormattableString.Invariant($"{string.Join(", ", words.Take(LongestList))} and {words.Count - LongestList} more");
}
