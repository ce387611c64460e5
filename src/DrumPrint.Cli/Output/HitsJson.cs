using System.Text.Json;
using DrumPrint.Measuring;

namespace DrumPrint.Cli.Output;

/// <summary>Writes levels of hits as JSON.</summary>
internal static class HitsJson
{
    public static void Write(Stream stream, IReadOnlyList<HitReport> reports)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("engine", EngineVersion.Text);
        json.WriteStartArray("files");
        foreach (var report in reports)
        {
            json.WriteStartObject();
            json.WriteString("file", report.File);
            Spread(json, "hits", report.Hits);
            Spread(json, "ghosts", report.Ghosts);
            Spread(json, "spill", report.Spill);
            Number(json, "open_db", report.OpenDb);
            json.WriteString("note", report.Note);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Spread(Utf8JsonWriter json, string key, LevelSpread spread)
    {
        json.WriteStartObject(key);
        json.WriteNumber("count", spread.Count);
        Number(json, "soft_db", spread.SoftDb);
        Number(json, "middle_db", spread.MiddleDb);
        Number(json, "loud_db", spread.LoudDb);
        json.WriteStartArray("peaks_db");
        foreach (var db in spread.PeaksDb.Where(double.IsFinite))
        {
            json.WriteNumberValue(Math.Round(db, 1));
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string key, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(key, Math.Round(number, 1) + 0);
        }
        else
        {
            json.WriteNull(key);
        }
    }
}
