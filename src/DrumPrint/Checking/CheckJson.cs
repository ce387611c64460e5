using System.Text.Json;
using DrumPrint.Checking.Findings;

namespace DrumPrint.Checking;

/// <summary>A check as JSON; docs/check-format.md describes the keys.</summary>
public static class CheckJson
{
    /// <summary>Writes the report, one object.</summary>
    public static void Write(Stream stream, CheckReport report)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(report);
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            Write(json, report);
        }

        stream.WriteByte((byte)'\n');
    }

    /// <summary>The word for a weight.</summary>
    public static string Word(Severity severity) => severity switch
    {
        Severity.Fault => "fault",
        Severity.Warning => "warning",
        _ => "information",
    };

    internal static void Write(Utf8JsonWriter json, CheckReport report)
    {
        json.WriteStartObject();
        json.WriteNumber("check", 1);
        json.WriteString("engine", EngineVersion.Text);
        json.WriteString("target", report.Target);
        json.WriteString("song", report.Song);
        json.WriteNumber("files", report.Files);
        json.WriteNumber("faults", report.Count(Severity.Fault));
        json.WriteNumber("warnings", report.Count(Severity.Warning));
        json.WriteNumber("informations", report.Count(Severity.Information));
        json.WriteNumber("signed_off", report.Findings.Count - report.Open.Count());
        json.WriteStartArray("findings");
        foreach (var finding in report.Findings)
        {
            Write(json, report, finding);
        }

        json.WriteEndArray();
        json.WriteStartArray("notes");
        foreach (var note in report.Notes)
        {
            json.WriteStringValue(note);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, CheckReport report, Finding finding)
    {
        json.WriteStartObject();
        json.WriteString("rule", finding.Rule.Id);
        json.WriteString("severity", Word(finding.Severity));
        json.WriteString("title", finding.Rule.Title);
        json.WriteString("track", finding.Track);
        json.WriteString("measured", finding.Measured);
        json.WriteString("threshold", finding.Rule.Threshold);
        json.WriteString("sentence", finding.Sentence);
        json.WriteString("fix", finding.Rule.Fix);
        json.WriteString("source", finding.Rule.Source);
        json.WriteNumber("count", finding.Count);
        json.WriteStartArray("places");
        foreach (var place in finding.PlacesS)
        {
            json.WriteStartObject();
            json.WriteNumber("time_s", Math.Round(place, 4) + 0);
            json.WriteString("bar", report.Bar(place));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("sign_off", SignOff.Line(finding));
        json.WriteString("accepted_why", finding.AcceptedWhy);
        json.WriteEndObject();
    }
}
