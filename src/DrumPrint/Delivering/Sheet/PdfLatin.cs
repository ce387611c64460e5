namespace DrumPrint.Delivering.Sheet;

/// <summary>Text in the letters that the PDF's fonts have: no accents. The other two forms of the sheet have them all.</summary>
internal static class PdfLatin
{
    private const string Latin = "AAAAAAACEEEEIIIIDNOOOOOxOUUUUYTsaaaaaaaceeeeiiiidnooooo/ouuuuyty";

    /// <param name="text">Any text.</param>
    public static string Of(string text) => string.Concat(text.Select(c => c switch
    {
        '−' or '–' or '—' => "-",
        '∞' => "inf",
        '→' => "->",
        '…' => "...",
        '’' or '‘' => "'",
        '“' or '”' => "\"",
        '·' => "-",
        >= ' ' and <= '~' => c.ToString(),
        '°' => " deg",
        '±' => "+/-",
        'µ' => "u",
        >= 'À' and <= 'ÿ' => Latin[c - 'À'].ToString(),
        _ => "?",
    }));
}
