using System.Text;
using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Planning;

namespace DrumPrint.Prints;

/// <summary>The record of one run: what went in, what came out, by hash.</summary>
internal static class Ticket
{
    public static string FileName(Song song) => $"{song.Code}_v{song.Version}.ticket.json";

    /// <summary>The ticket as JSON. Holds no clock time, path of this machine or other thing that would differ elsewhere.</summary>
    public static string Text(PrintReport report, RenderPlan plan, SessionInputs inputs)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteNumber("ticket", 1);
            json.WriteString("engine", EngineVersion.Text);
            json.WriteString("song", report.Chain.Song.Code);
            json.WriteNumber("version", report.Chain.Song.Version);
            json.WriteNumber("rate_hz", report.Chain.Song.RateHz);
            json.WriteString("encoding", EncodingWord(report.Encoding));
            json.WriteNumber("frames", report.Frames);
            json.WriteNumber("trim_db", report.TrimDb);
            Number(json, "null_peak_dbfs", report.NullPeakDbfs);
            Tracks(json, plan, inputs);
            Impulses(json, inputs);
            Stages(json, plan);
            Prints(json, report);
            Sentences(json, "notes", report.Notes);
            Sentences(json, "findings", report.Findings);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    /// <summary>Writes the ticket under a temporary name and renames it.</summary>
    public static void Write(string path, string text)
    {
        var temporary = path + ".partial";
        try
        {
            File.WriteAllText(temporary, text);
            File.Move(temporary, path, overwrite: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new AudioFileException(path, $"cannot be written: {e.Message}", e);
        }
    }

    public static string EncodingWord(SampleEncoding encoding) => encoding switch
    {
        SampleEncoding.Pcm16 => "16",
        SampleEncoding.Pcm24 => "24",
        SampleEncoding.Float32 => "32f",
        _ => encoding.ToString(),
    };

    private static void Tracks(Utf8JsonWriter json, RenderPlan plan, SessionInputs inputs)
    {
        json.WriteStartArray("tracks");
        foreach (var (name, source) in plan.Sources.OrderBy(s => s.Key, StringComparer.Ordinal))
        {
            var input = inputs.Tracks[name];
            json.WriteStartObject();
            json.WriteString("name", name);
            json.WriteString("file", input.Track.File);
            json.WriteString("audio_sha256", source.AudioSha256);
            json.WriteNumber("frames", input.Info.Frames);
            json.WriteNumber("rate_hz", input.Info.SampleRate);
            json.WriteNumber("channels", input.Info.Channels);
            json.WriteBoolean("converted", input.IsConverted);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Impulses(Utf8JsonWriter json, SessionInputs inputs)
    {
        json.WriteStartArray("impulses");
        foreach (var input in inputs.ImpulseFiles)
        {
            json.WriteStartObject();
            json.WriteString("name", input.File.Name);
            json.WriteString("file", input.File.File);
            json.WriteString("audio_sha256", input.AudioSha256);
            json.WriteNumber("frames", input.Info.Frames);
            json.WriteNumber("rate_hz", input.Info.SampleRate);
            json.WriteNumber("channels", input.Info.Channels);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Stages(Utf8JsonWriter json, RenderPlan plan)
    {
        json.WriteStartArray("revisions");
        foreach (var definition in plan.Stages.Values.SelectMany(s => s).Select(s => s.Stage.Definition).Distinct().OrderBy(d => d.Key, StringComparer.Ordinal).ThenBy(d => d.Revision))
        {
            json.WriteStartObject();
            json.WriteString("processor", definition.Key);
            json.WriteNumber("revision", definition.Revision);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Prints(Utf8JsonWriter json, PrintReport report)
    {
        json.WriteStartArray("prints");
        foreach (var print in report.Prints)
        {
            json.WriteStartObject();
            PrintJson.WriteProperties(json, print);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Sentences(Utf8JsonWriter json, string name, IReadOnlyList<string> sentences)
    {
        json.WriteStartArray(name);
        foreach (var sentence in sentences)
        {
            json.WriteStringValue(sentence);
        }

        json.WriteEndArray();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value) => PrintJson.WriteLevel(json, name, value ?? double.NaN);
}
