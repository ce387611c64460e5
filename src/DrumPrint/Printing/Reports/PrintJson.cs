using System.Text.Json;
using DrumPrint.Session;

namespace DrumPrint.Printing.Reports;

/// <summary>A written print as JSON, in tickets and on standard output.</summary>
public static class PrintJson
{
    public static void WriteProperties(Utf8JsonWriter json, PrintedFile print)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(print);
        json.WriteNumber("number", print.Number);
        json.WriteString("name", print.Name);
        json.WriteString("kind", PrintKinds.Word(print.Kind));
        json.WriteString("file", print.FileName);
        json.WriteNumber("channels", print.Channels);
        WriteLevel(json, "peak_dbfs", print.PeakDbfs);
        WriteLevel(json, "true_peak_dbtp", print.TruePeakDbtp);
        WriteLevel(json, "integrated_lufs", print.IntegratedLufs);
        json.WriteNumber("tail_s", Math.Round(print.TailS, 3));
        json.WriteNumber("latency_frames", print.LatencyFrames);
        json.WriteStartArray("gain_reduction");
        foreach (var reduction in print.GainReductions)
        {
            json.WriteStartObject();
            json.WriteString("processor", reduction.Processor);
            if (reduction.Bus is { } bus)
            {
                json.WriteString("bus", bus);
            }

            WriteLevel(json, "median_db", reduction.MedianDb);
            WriteLevel(json, "largest_db", reduction.LargestDb);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("audio_sha256", print.AudioSha256);
        json.WriteString("file_sha256", print.FileSha256);
    }

    /// <summary>A level to 0.01 dB; null where there is none (silence).</summary>
    public static void WriteLevel(Utf8JsonWriter json, string name, double value)
    {
        ArgumentNullException.ThrowIfNull(json);
        if (double.IsFinite(value))
        {
            json.WriteNumber(name, Math.Round(value, 2));
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
