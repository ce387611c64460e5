using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Printing.Reports;

namespace DrumPrint.Cli.Output;

/// <summary>Writes what was printed as JSON.</summary>
internal static class ReportJson
{
    public static void Write(Stream stream, PrintReport report)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("engine", EngineVersion.Text);
        json.WriteString("song", report.Chain.Song.Code);
        json.WriteNumber("version", report.Chain.Song.Version);
        json.WriteString("folder", report.OutFolder);
        json.WriteNumber("rate_hz", report.Chain.Song.RateHz);
        json.WriteString("encoding", report.Encoding.Word());
        json.WriteNumber("start_frame", report.StartFrame);
        json.WriteNumber("frames", report.Frames);
        json.WriteNumber("trim_db", report.TrimDb);
        PrintJson.WriteLevel(json, "null_peak_dbfs", report.NullPeakDbfs ?? double.NaN);
        json.WriteStartArray("prints");
        foreach (var print in report.Prints)
        {
            json.WriteStartObject();
            PrintJson.WriteProperties(json, print);
            PrintJson.WriteLevel(json, "crest_db", print.CrestDb);
            if (report.LookedForChanges)
            {
                json.WriteBoolean("rendered", !print.IsUnchanged);
                json.WriteLines("because", print.Because);
            }

            WriteEarlier(json, print.Earlier);
            if (print.SameSoundAs is { } same)
            {
                json.WriteString("same_sound_as", same);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteLines("notes", report.Notes);
        json.WriteLines("folder_notes", report.FolderNotes);
        json.WriteLines("store_notes", report.StoreNotes);
        json.WriteLines("findings", report.Findings);
        json.WriteEndObject();
        json.Flush();
        stream.WriteByte((byte)'\n');
    }

    private static void WriteEarlier(Utf8JsonWriter json, EarlierSound? earlier)
    {
        if (earlier is null)
        {
            return;
        }

        var before = earlier.Pair.A;
        json.WriteStartObject("earlier");
        json.WriteNumber("version", earlier.Version);
        json.WriteString("file", before.FileName);
        json.WriteBoolean("same_audio", earlier.Pair.IsSameAudio);
        PrintJson.WriteLevel(json, "peak_dbfs", before.PeakDbfs);
        PrintJson.WriteLevel(json, "integrated_lufs", before.IntegratedLufs);
        json.WriteString("change", earlier.Change);
        json.WriteEndObject();
    }
}
