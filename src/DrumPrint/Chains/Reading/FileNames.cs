using System.Text;

namespace DrumPrint.Chains.Reading;

/// <summary>Which words may become part of a file name on every system.</summary>
internal static class FileNames
{
    public const string Rule = "letters A to Z and a to z, digits and - only";

    /// <summary>Longest part: with the other parts and the folder it stays within what every system takes.</summary>
    public const int Longest = 60;

    /// <summary>The rule for a schema.</summary>
    public static string Pattern { get; } = FormattableString.Invariant($"^[A-Za-z0-9-]{{1,{Longest}}}$");

    public static bool IsSafe(string part) => part.Length is > 0 and <= Longest && part.All(IsSafe);

    /// <summary>The closest safe word: what is not allowed goes, and the next letter becomes a capital. Empty when nothing is left.</summary>
    public static string Safe(string part)
    {
        var text = new StringBuilder();
        var isWordStart = false;
        foreach (var c in part)
        {
            if (IsSafe(c) && text.Length < Longest)
            {
                text.Append(isWordStart ? char.ToUpperInvariant(c) : c);
            }

            isWordStart = !IsSafe(c);
        }

        return text.ToString();
    }

    private static bool IsSafe(char c) => char.IsAsciiLetterOrDigit(c) || c == '-';
}
