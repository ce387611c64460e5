using System.Globalization;
using System.Text;
using System.Text.Json;
using DrumPrint.Chains.Json;

namespace DrumPrint.Store;

/// <summary>Numbers that were found, as bytes: a line with the sum of the rest, then JSON.</summary>
internal static class FoundNumberText
{
    /// <summary>Largest entry that is read.</summary>
    public const long MostBytes = 1 << 16;

    /// <param name="sums">The store's.</param>
    /// <param name="key">What the number is kept under.</param>
    /// <param name="found">What was found.</param>
    public static byte[] Of(StoreSums sums, string key, FoundNumber found)
    {
        var json = Encoding.UTF8.GetString(CanonicalJson.DenseBytes(j =>
        {
            j.WriteStartObject();
            j.WriteString("key", key);
            j.WriteString("number", found.Number.ToString("R", CultureInfo.InvariantCulture));
            j.WriteString("words", found.Words);
            j.WriteEndObject();
        }));
        return Encoding.UTF8.GetBytes($"{sums.Of(json)}\n{json}");
    }

    /// <summary>Null when the bytes are not those that were written under the key.</summary>
    public static FoundNumber? Parse(StoreSums sums, string key, byte[] bytes)
    {
        try
        {
            var parts = Encoding.UTF8.GetString(bytes).Split('\n', 2);
            if (parts.Length < 2 || sums.Of(parts[1]) != parts[0])
            {
                return null;
            }

            using var document = JsonDocument.Parse(parts[1]);
            var json = document.RootElement;
            return json.GetProperty("key").GetString() == key
                ? new FoundNumber(double.Parse(json.GetProperty("number").GetString()!, CultureInfo.InvariantCulture), json.GetProperty("words").GetString()!)
                : null;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or KeyNotFoundException or FormatException or ArgumentNullException)
        {
            return null;
        }
    }
}
