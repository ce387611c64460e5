using System.Text.Json;
using DrumPrint.Beginning;

namespace DrumPrint.Cli.Output;

/// <summary>Writes a begun session as JSON.</summary>
internal static class BeginJson
{
    public static void Write(Stream stream, BegunSession begun)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("engine", EngineVersion.Text);
        json.WriteString("chain", begun.ChainPath);
        json.WriteStartArray("tracks");
        foreach (var track in begun.Tracks)
        {
            json.WriteStartObject();
            json.WriteString("name", track.Name);
            json.WriteString("file", track.File);
            json.WriteString("role", track.Role);
            json.WriteString("drum", track.Drum);
            json.WriteString("polarity", track.IsInverted ? "inverted" : "normal");
            json.WriteNumber("delay_ms", track.DelayMs);
            json.WriteString("why", track.Why);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("left_out");
        foreach (var file in begun.LeftOut)
        {
            json.WriteStartObject();
            json.WriteString("file", file.File);
            json.WriteString("why", file.Why);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteLines("notes", begun.Notes);
        json.WriteLines("evidence", begun.Evidence);
        json.WriteEndObject();
    }
}
