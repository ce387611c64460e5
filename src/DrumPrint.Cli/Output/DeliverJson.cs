using System.Text.Json;
using DrumPrint.Delivering;

namespace DrumPrint.Cli.Output;

/// <summary>Writes deliveries, checks and origins as JSON.</summary>
internal static class DeliverJson
{
    public static void Write(Stream stream, DeliveryReport report) => Write(stream, json =>
    {
        json.WriteString("title", report.Manifest.Title);
        json.WriteNumber("version", report.Manifest.Version);
        json.WriteLines("written", report.Written);
        json.WriteStartArray("files");
        foreach (var file in report.Manifest.Files)
        {
            json.WriteStartObject();
            json.WriteString("file", file.Name);
            json.WriteString("kind", Word(file.Kind.ToString()));
            json.WriteString("state", Word(file.State.ToString()));
            json.WriteString("file_sha256", file.FileSha256);
            json.WriteString("audio_sha256", file.Sound?.AudioSha256);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteLines("withdrawn", report.Manifest.Withdrawn);
        json.WriteLines("changes", report.Manifest.Changes);
        json.WriteStartArray("wishes");
        foreach (var wish in report.Manifest.Wishes)
        {
            json.WriteStartObject();
            json.WriteNumber("version", wish.Version);
            json.WriteString("wish", wish.Text);
            json.WriteLines("changes", wish.Changes);
            json.WriteString("answer", wish.Answer);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("pan_laws");
        foreach (var line in report.Proof)
        {
            json.WriteStartObject();
            json.WriteNumber("centre_db", Math.Round(line.CentreDb, 4));
            json.WriteNumber("correction_db", line.CorrectionDb);
            Level(json, "left_dbfs", line.LeftDbfs);
            json.WriteNumber("rounded_correction_db", line.TypedDb);
            Level(json, "left_rounded_dbfs", line.LeftTypedDbfs);
            Level(json, "left_uncorrected_dbfs", line.LeftBareDbfs);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteLines("notes", report.Notes);
    });

    public static void Write(Stream stream, DeliveryCheck check) => Write(stream, json =>
    {
        json.WriteString("title", check.Manifest.Title);
        json.WriteNumber("version", check.Manifest.Version);
        json.WriteBoolean("whole", check.IsWhole);
        json.WriteStartArray("findings");
        foreach (var finding in check.Findings)
        {
            json.WriteStartObject();
            json.WriteString("kind", Word(finding.Kind.ToString()));
            json.WriteString("file", finding.File);
            json.WriteString("finding", finding.Text);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    });

    public static void Write(Stream stream, string path, IReadOnlyList<FileOrigin> origins) => Write(stream, json =>
    {
        json.WriteString("file", path);
        json.WriteStartArray("origins");
        foreach (var origin in origins)
        {
            json.WriteStartObject();
            json.WriteString("folder", origin.Folder);
            json.WriteString("title", origin.Manifest.Title);
            json.WriteNumber("version", origin.Manifest.Version);
            json.WriteString("chain_sha256", origin.Manifest.ChainSha256);
            json.WriteString("delivered_as", origin.File.Name);
            json.WriteBoolean("whole", origin.IsWhole);
            json.WriteString("how", origin.How);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    });

    private static void Write(Stream stream, Action<Utf8JsonWriter> write)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        write(json);
        json.WriteEndObject();
        json.Flush();
        stream.WriteByte((byte)'\n');
    }

    private static void Level(Utf8JsonWriter json, string name, double db)
    {
        if (double.IsFinite(db))
        {
            json.WriteNumber(name, Math.Round(db, 2));
        }
        else
        {
            json.WriteNull(name); // nothing is left
        }
    }

    // HeaderChanged is header_changed.
    private static string Word(string name) => string.Concat(name.Select((c, i) => char.IsUpper(c) && i > 0 ? $"_{char.ToLowerInvariant(c)}" : char.ToLowerInvariant(c).ToString()));
}
