using System.Text;

namespace DrumPrint.Delivering;

/// <summary>The list of sums that <c>sha256sum -c</c> reads.</summary>
internal static class SumsFile
{
    public const string Name = "SHA256SUMS";

    /// <summary>A line for each file, in the order of their names.</summary>
    public static string Text(IEnumerable<(string Name, string Sha256)> files)
    {
        var text = new StringBuilder();
        foreach (var (name, sha256) in files.OrderBy(f => f.Name, StringComparer.Ordinal))
        {
            // Two spaces: the sum is of the bytes as they are.
            text.Append(sha256).Append("  ").Append(name).Append('\n');
        }

        return text.ToString();
    }
}
