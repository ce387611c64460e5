using System.Text.Json;

namespace DrumPrint.Comparing.Album;

/// <summary>An album's report as JSON. <c>docs/compare-format.md</c> describes it.</summary>
public static class AlbumJson
{
    /// <summary>Writes a report.</summary>
    public static void Write(Stream stream, AlbumReport report)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(report);
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            Write(json, report);
        }

        stream.WriteByte((byte)'\n');
    }

    internal static void Write(Utf8JsonWriter json, AlbumReport report, Action<Utf8JsonWriter>? more = null)
    {
        json.WriteStartObject();
        json.WriteNumber("album", ComparisonJson.Format);
        json.WriteString("engine", EngineVersion.Text);
        json.WriteString("verdict", report.Verdict);
        json.WriteBoolean("against_rough", report.HasRough);
        ComparisonJson.WriteList(json, "songs", report.Songs);
        json.WriteStartArray("prints");
        foreach (var print in report.Prints)
        {
            json.WriteStartObject();
            json.WriteNumber("number", print.Number);
            json.WriteString("name", print.Name);
            ComparisonJson.WriteNumber(json, "move_lu", print.MoveLu);
            json.WriteStartArray("songs");
            foreach (var cell in print.Cells)
            {
                Write(json, cell);
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        ComparisonJson.WriteList(json, "notes", report.Notes);
        more?.Invoke(json);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, AlbumCell? cell)
    {
        if (cell is null)
        {
            json.WriteNullValue();
            return;
        }

        json.WriteStartObject();
        ComparisonJson.WriteNumber(json, "loudness_lufs", cell.LoudnessLufs);
        ComparisonJson.WriteNumber(json, "against_rough_lu", cell.AgainstRoughLu);
        ComparisonJson.WriteNumber(json, "peak_dbfs", cell.PeakDbfs);
        ComparisonJson.WriteNumber(json, "crest_db", cell.CrestDb);
        ComparisonJson.WriteNumber(json, "correlation", cell.Correlation);
        json.WriteEndObject();
    }
}
