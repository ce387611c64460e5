using System.Text.Json;
using DrumPrint.Carrying;

namespace DrumPrint.Cli.Output;

/// <summary>Writes a carried session as JSON.</summary>
internal static class CarryJson
{
    public static void Write(Stream stream, CarriedSession carried)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("engine", EngineVersion.Text);
        json.WriteString("chain", carried.ChainPath);
        json.WriteStartArray("tracks");
        foreach (var track in carried.Tracks)
        {
            json.WriteStartObject();
            json.WriteString("name", track.Name);
            json.WriteString("before", track.Before);
            json.WriteString("now", track.Now);
            json.WriteString("why", track.Why);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        Lines(json, "unused", carried.Unused);
        Lines(json, "moved", carried.Moved);
        Lines(json, "left_behind", carried.LeftBehind);
        Lines(json, "notes", carried.Notes);
        json.WriteEndObject();
    }

    private static void Lines(Utf8JsonWriter json, string key, IReadOnlyList<string> lines)
    {
        json.WriteStartArray(key);
        foreach (var line in lines)
        {
            json.WriteStringValue(line);
        }

        json.WriteEndArray();
    }
}
