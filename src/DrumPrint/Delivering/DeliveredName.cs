using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Chains.Format;

namespace DrumPrint.Delivering;

/// <summary>Names of delivered sound files, by the pattern of the chain. What is not to be played with the others sorts behind it.</summary>
internal static class DeliveredName
{
    private const string NameWord = "{name}";

    // With all that is put around it, a name stays within what every system takes.
    private const int LongestStem = 100;

    /// <summary>The name that a print goes by; its own without a pattern.</summary>
    public static string Of(Chain chain, int number, string name, SoundSide side = SoundSide.Whole)
    {
        var pattern = chain.Delivery.Names ?? NamePattern.OfPrints;
        var end = side switch { SoundSide.Left => "-L", SoundSide.Right => "-R", _ => "" };
        var stem = NamePattern.Fill(pattern, chain.Song, number, name + end);
        return pattern.Contains(NameWord, StringComparison.Ordinal) ? $"{stem}.wav" : $"{stem}{end}.wav";
    }

    /// <summary>The name of its dry twin.</summary>
    public static string OfDry(Chain chain, int number, string name, SoundSide side = SoundSide.Whole) => "dry_" + Of(chain, number, name, side);

    /// <summary>A name that every system takes, for a file that had another, and that no other file here has.</summary>
    /// <param name="kind">What it begins with.</param>
    /// <param name="file">The file as the chain names it.</param>
    /// <param name="taken">Names so far; the new one is added.</param>
    public static string OfSource(string kind, string file, HashSet<string> taken)
    {
        var stem = string.Concat(Path.GetFileNameWithoutExtension(file).Take(LongestStem).Select(c => char.IsAsciiLetterOrDigit(c) || c is '_' or '-' ? c : '-'));
        var end = string.Concat(Path.GetExtension(file).Where(c => char.IsAsciiLetterOrDigit(c) || c == '.'));
        for (var again = 1; ; again++)
        {
            var name = $"{kind}_{stem}{(again == 1 ? "" : FormattableString.Invariant($"-{again}"))}{end}";
            if (taken.Add(name))
            {
                return name;
            }
        }
    }

    /// <summary>The version that a name ends with; null where it follows another pattern.</summary>
    public static int? VersionIn(string name)
    {
        var stem = Path.GetFileNameWithoutExtension(name);
        var at = stem.LastIndexOf("_v", StringComparison.Ordinal);
        return at >= 0 && int.TryParse(stem.AsSpan(at + 2), NumberStyles.None, CultureInfo.InvariantCulture, out var version) ? version : null;
    }
}
