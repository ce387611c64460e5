using System.Globalization;
using System.Text.Json;
using DrumPrint.Language;
using DrumPrint.Session;

namespace DrumPrint.Cli.Output;

/// <summary>Shows the songs of an album beside each other.</summary>
internal static class SongScreen
{
    public static void Write(IReadOnlyList<SongRow> rows, bool isJson, bool isQuiet)
    {
        if (isJson)
        {
            Json(rows);
        }
        else if (!isQuiet)
        {
            Table(rows);
        }
    }

    private static void Table(IReadOnlyList<SongRow> rows)
    {
        var console = Terminal.Screen();
        var first = rows.Select(r => r.Figures).OfType<Delivering.SongFigures>().FirstOrDefault();
        var table = new ScreenTable()
            .Text("Song").Text("What became of it", isWhole: true).Figures("Length\ns").Text("Form", 4, isWhole: true).Figures("Files", 5).Figures("Rough\nLUFS").Figures("With bus\nLUFS", 3).Figures("True peak\ndBTP", 2).Text("Recipe", 1, isWhole: true);
        foreach (var row in rows)
        {
            var figures = row.Figures;
            table.Row(
                Visible.Line(row.Song),
                Outcome(row.Code),
                figures is null ? "–" : figures.LengthS.ToString("0.000", CultureInfo.InvariantCulture),
                figures is null ? "–" : string.Create(CultureInfo.InvariantCulture, $"{figures.Song.RateHz / 1000.0:0.###} kHz, {figures.Bits}"),
                figures is null ? "–" : figures.Count(PrintKind.Playing).ToString(CultureInfo.InvariantCulture),
                Level(figures?.RoughLufs),
                Level(figures?.RoughWithBusLufs),
                Level(figures?.TruePeakDbtp),
                figures is null ? "–" : $"{figures.Ticket.ChainSha256[..8]}{(figures == first ? "" : $", {Apart(figures.DifferencesFrom(first!))}")}");
        }

        table.Draw(console, ", --json too");
        var failed = rows.Count(r => r.Code is not (ExitCode.Done or ExitCode.Findings));
        console.Line(failed == 0
            ? $"{Words.Count(rows.Count, "song")}. Recipes are held against the first song's: buses, processors, levels and delays, not raw files and tempo. drumprint diff tells the differences."
            : $"{rows.Count - failed} of {Words.Count(rows.Count, "song")} done. Mend the others and give the same command again: what is done is seen and not made twice.");
    }

    private static string Apart(int differences) => differences == 0 ? "the same" : Words.Count(differences, "difference");

    private static string Outcome(int? code) => code switch
    {
        null => "not begun",
        ExitCode.Done => "done",
        ExitCode.Findings => "done, look at it",
        ExitCode.Usage => "needs a change",
        ExitCode.File => "file trouble",
        ExitCode.Cancelled => "stopped",
        _ => "fault",
    };

    private static string Level(double? db) => db is { } value ? value.ToString("0.0", CultureInfo.InvariantCulture).Replace('-', '−') : "–";

    private static void Json(IReadOnlyList<SongRow> rows)
    {
        var first = rows.Select(r => r.Figures).OfType<Delivering.SongFigures>().FirstOrDefault();
        using var stream = Terminal.Json();
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteStartArray("songs");
        foreach (var row in rows)
        {
            json.WriteStartObject();
            json.WriteString("song", row.Song);
            Number(json, "exit_code", row.Code);
            if (row.Figures is { } figures)
            {
                json.WriteString("title", figures.Song.Title);
                json.WriteString("code", figures.Song.Code);
                json.WriteNumber("version", figures.Song.Version);
                json.WriteNumber("rate_hz", figures.Song.RateHz);
                json.WriteString("bits", figures.Bits);
                json.WriteNumber("frames", figures.Ticket.Frames);
                json.WriteNumber("playing", figures.Count(PrintKind.Playing));
                json.WriteNumber("extras", figures.Count(PrintKind.Optional));
                Number(json, "rough_lufs", figures.RoughLufs);
                Number(json, "rough_with_bus_lufs", figures.RoughWithBusLufs);
                Number(json, "true_peak_dbtp", figures.TruePeakDbtp);
                json.WriteString("chain_sha256", figures.Ticket.ChainSha256);
                json.WriteNumber("differences_from_first", figures.DifferencesFrom(first!));
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.Flush();
        stream.WriteByte((byte)'\n');
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number)
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
