using System.Text.Json;
using DrumPrint.Diff;
using DrumPrint.Printing.Reports;
using DrumPrint.Tickets;

namespace DrumPrint.Cli.Output;

/// <summary>Writes what changed as JSON.</summary>
internal static class DiffJson
{
    public static void Write(Stream stream, DiffReport report)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteBoolean("equal", report.IsEqual);
        json.WriteStartArray("changes");
        foreach (var change in report.Changes)
        {
            json.WriteStartObject();
            json.WriteString("subject", change.Subject);
            json.WriteString("change", change.Text);
            json.WriteLines("reaches", change.Reaches);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("measured");
        foreach (var pair in report.Measured)
        {
            json.WriteStartObject();
            json.WriteString("print", pair.Name);
            json.WriteBoolean("same_audio", pair.IsSameAudio);
            Side(json, "a", pair.A, pair.LengthA);
            Side(json, "b", pair.B, pair.LengthB);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteLines("notes", report.Notes);
        json.WriteEndObject();
        json.Flush();
        stream.WriteByte((byte)'\n');
    }

    private static void Side(Utf8JsonWriter json, string name, RecordedPrint print, double lengthS)
    {
        json.WriteStartObject(name);
        PrintJson.WriteLevel(json, "peak_dbfs", print.PeakDbfs);
        PrintJson.WriteLevel(json, "integrated_lufs", print.IntegratedLufs);
        json.WriteNumber("length_s", Math.Round(lengthS, 3));
        json.WriteString("audio_sha256", print.AudioSha256);
        json.WriteEndObject();
    }
}
