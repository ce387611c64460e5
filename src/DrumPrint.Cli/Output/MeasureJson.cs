using System.Text.Json;
using DrumPrint.Measuring;

namespace DrumPrint.Cli.Output;

/// <summary>Writes measured files as JSON.</summary>
internal static class MeasureJson
{
    public static void Write(Stream stream, IReadOnlyList<FileMeasurement> files)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("engine", EngineVersion.Text);
        json.WriteStartArray("files");
        foreach (var file in files)
        {
            json.WriteStartObject();
            MeasurementJson.WriteProperties(json, file);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.Flush();
        stream.WriteByte((byte)'\n');
    }
}
