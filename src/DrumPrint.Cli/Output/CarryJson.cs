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
        json.WriteLines("unused", carried.Unused);
        json.WriteLines("moved", carried.Moved);
        json.WriteLines("left_behind", carried.LeftBehind);
        json.WriteLines("notes", carried.Notes);
        json.WriteEndObject();
    }
}
