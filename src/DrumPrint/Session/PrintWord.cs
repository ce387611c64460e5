using System.Globalization;

namespace DrumPrint.Session;

/// <summary>Whether a word names a print.</summary>
internal static class PrintWord
{
    public const string Rough = "rough";
    public const string WithBus = "with-bus";

    public static bool Fits(string word, int number, string name, PrintKind? kind, string? file = null) =>
        string.Equals(word, name, StringComparison.OrdinalIgnoreCase)
        || (file is not null && (string.Equals(word, file, StringComparison.OrdinalIgnoreCase) || string.Equals(word, Path.GetFileNameWithoutExtension(file), StringComparison.OrdinalIgnoreCase)))
        || (int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var given) && given == number)
        || (kind == PrintKind.Rough && string.Equals(word, Rough, StringComparison.OrdinalIgnoreCase))
        || (kind == PrintKind.RoughWithBus && string.Equals(word, WithBus, StringComparison.OrdinalIgnoreCase));
}
