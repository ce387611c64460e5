using System.Globalization;
using System.Text.Json;
using DrumPrint.Measuring;
using Spectre.Console;

namespace DrumPrint.Cli.Output;

/// <summary>Shows levels of hits.</summary>
internal static class HitsScreen
{
    public static void Write(IReadOnlyList<HitReport> reports)
    {
        var console = Terminal.Screen();
        var table = new Table().Border(TableBorder.SimpleHeavy).AddColumn("File");
        foreach (var heading in new[] { "Hits", "soft\n10 %", "middle", "loud\n5 %", "Ghosts", "middle", "Spill", "middle", "loud\n5 %", "Threshold\nbetween" })
        {
            table.AddColumn(new TableColumn(heading).RightAligned().NoWrap());
        }

        foreach (var r in reports)
        {
            table.AddRow(
                Screen.Cell(Path.GetFileNameWithoutExtension(r.File)),
                Count(r.Hits), Db(r.Hits.SoftDb), Db(r.Hits.MiddleDb), Db(r.Hits.LoudDb), Count(r.Ghosts), Db(r.Ghosts.MiddleDb), Count(r.Spill), Db(r.Spill.MiddleDb), Db(r.Spill.LoudDb), Db(r.OpenDb));
        }

        console.Draw(table);
        console.Line("Levels are the highest sample of each hit, dBFS. The threshold stands a third of the way from loud spill up to soft hits.");
        foreach (var group in reports.Where(r => r.Note is not null).GroupBy(r => r.Note))
        {
            console.Line($"{string.Join(", ", group.Select(r => Path.GetFileNameWithoutExtension(r.File)))}: {group.Key}");
        }
    }

    public static void WriteJson(Stream stream, IReadOnlyList<HitReport> reports)
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
        foreach (var db in spread.PeaksDb)
        {
            json.WriteNumberValue(Math.Round(db, 1));
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string key, double? value)
    {
        if (value is { } number)
        {
            json.WriteNumber(key, Math.Round(number, 1) + 0);
        }
        else
        {
            json.WriteNull(key);
        }
    }

    private static string Count(LevelSpread spread) => spread.Count.ToString(CultureInfo.InvariantCulture);

    private static string Db(double? value) => value is { } db ? db.ToString("0.0;−0.0;0.0", CultureInfo.InvariantCulture) : "–";
}
