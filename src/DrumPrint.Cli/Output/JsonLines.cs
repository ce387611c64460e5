using System.Text.Json;

namespace DrumPrint.Cli.Output;

/// <summary>Writes sentences as JSON.</summary>
internal static class JsonLines
{
    /// <summary>Writes a key and a list of texts.</summary>
    public static void WriteLines(this Utf8JsonWriter json, string key, IReadOnlyList<string> lines)
    {
        json.WriteStartArray(key);
        foreach (var line in lines)
        {
            json.WriteStringValue(line);
        }

        json.WriteEndArray();
    }
}
