namespace DrumPrint.Chains.Reading;

/// <summary>Looks at texts that go on screens, into file names and into prints.</summary>
internal static class ReadableText
{
    private const int Longest = 4000;

    /// <summary>What keeps a text from being read, behind its name; null when nothing does.</summary>
    public static string? Problem(string text)
    {
        if (text.Length > Longest)
        {
            return FormattableString.Invariant($"is {text.Length} characters long; at most {Longest} are taken.");
        }

        var hidden = text.FirstOrDefault(char.IsControl, ' ');
        return hidden == ' ' ? null : FormattableString.Invariant($"holds a character that cannot be seen (U+{(int)hidden:X4}). Write it without.");
    }
}
