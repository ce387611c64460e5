using System.Text.Json;
using DrumPrint.Reprinting;

namespace DrumPrint.Cli.Output;

/// <summary>Writes how prints made again compare, as JSON.</summary>
internal static class ReprintJson
{
    public static void Write(Stream stream, ReprintReport report)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("engine", EngineVersion.Text);
        json.WriteBoolean("identical", report.IsIdentical);
        json.WriteStartArray("prints");
        foreach (var print in report.Prints)
        {
            json.WriteStartObject();
            json.WriteString("file", print.FileName);
            json.WriteString("outcome", print.Outcome switch
            {
                ReprintOutcome.Identical => "identical",
                ReprintOutcome.SameAudio => "same_audio",
                _ => "differs",
            });
            if (print.FirstDifference is { } frame)
            {
                json.WriteNumber("first_difference_frame", frame);
            }

            if (print.FirstDifferenceS is { } seconds)
            {
                json.WriteNumber("first_difference_s", Math.Round(seconds, 6));
            }

            if (print.FirstDifferenceBar is { } bar)
            {
                json.WriteNumber("first_difference_bar", Math.Round(bar, 3));
            }

            if (print.ResidualDbfs is { } residual && double.IsFinite(residual))
            {
                json.WriteNumber("residual_dbfs", Math.Round(residual, 2));
            }

            if (print.Cause is { } cause)
            {
                json.WriteString("cause", cause);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteLines("notes", report.Notes);
        json.WriteEndObject();
        json.Flush();
        stream.WriteByte((byte)'\n');
    }
}
