namespace DrumPrint.Chains;

/// <summary>Guesses what a mistyped word was meant to be.</summary>
public static class Spelling
{
    /// <summary>The word closest to the given one; null when none is close enough to be worth offering.</summary>
    public static string? Nearest(string given, IEnumerable<string> words) => Language.Nearest.Word(given, words);
}
