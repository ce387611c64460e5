using System.Security.Cryptography;

namespace DrumPrint.Files;

/// <summary>Names of files in the making: a pattern that is ours alone, and chance that nobody can foresee, so that no link waits there.</summary>
internal static class TemporaryName
{
    /// <summary>How every such name ends.</summary>
    public const string End = ".partial";

    private const string Start = ".drumprint-";
    private const int Digits = 24;

    /// <summary>What a listing of a folder is searched with.</summary>
    public const string Pattern = $"{Start}*{End}";

    /// <summary>A new name.</summary>
    public static string New() => $"{Start}{RandomNumberGenerator.GetHexString(Digits, lowercase: true)}{End}";

    /// <summary>Whether a name without its folder is one of these.</summary>
    public static bool Is(string name) =>
        name.Length == Start.Length + Digits + End.Length
        && name.StartsWith(Start, StringComparison.Ordinal)
        && name.EndsWith(End, StringComparison.Ordinal)
        && name.Skip(Start.Length).Take(Digits).All(char.IsAsciiHexDigitLower);
}
