using System.Globalization;
using System.Text.Json;
using DrumPrint.Measuring;

namespace DrumPrint.Cli.Output;

/// <summary>Shows under which hits a chain plays sounds.</summary>
internal static class LayersScreen
{
    public static void Write(IReadOnlyList<LayerRecord> layers)
    {
        var console = Terminal.Screen();
        foreach (var layer in layers)
        {
            console.Line($"{Visible.Line(layer.Bus)}: '{Visible.Line(layer.Sound)}' under {layer.Hits.Count.ToString(CultureInfo.InvariantCulture)} {(layer.Hits.Count == 1 ? "hit" : "hits")}");
            if (layer.Hits.Count == 0)
            {
                continue;
            }

            var table = new ScreenTable().Text("Bar:beat").Figures("Seconds", 1).Figures("Hit,\ndBFS").Figures("Sound,\ndB").Text("Way round").Figures("Alike,\n%", 2);
            foreach (var hit in layer.Hits)
            {
                table.Row(hit.Place ?? "–", Text(hit.Seconds, "0.0000"), Text(hit.LevelDb, "0.0"), Text(hit.GainDb, "+0.0;−0.0;0.0"), hit.IsInverted ? "inverted" : "as it is", Text(hit.LikenessPct, "0"));
            }

            table.Draw(console, ", --json too");
        }
    }

    public static void WriteJson(Stream stream, IReadOnlyList<LayerRecord> layers)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("engine", EngineVersion.Text);
        json.WriteStartArray("layers");
        foreach (var layer in layers)
        {
            json.WriteStartObject();
            json.WriteString("bus", layer.Bus);
            json.WriteString("sound", layer.Sound);
            json.WriteNumber("line", layer.Line);
            json.WriteStartArray("hits");
            foreach (var hit in layer.Hits)
            {
                json.WriteStartObject();
                json.WriteString("bar_beat", hit.Place);
                json.WriteNumber("seconds", Math.Round(hit.Seconds, 7) + 0);
                json.WriteNumber("level_db", Math.Round(Math.Max(hit.LevelDb, -200), 1) + 0);
                json.WriteNumber("gain_db", Math.Round(hit.GainDb, 1) + 0);
                json.WriteBoolean("inverted", hit.IsInverted);
                json.WriteNumber("alike_pct", Math.Round(hit.LikenessPct, 1) + 0);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static string Text(double value, string form) => value.ToString(form, CultureInfo.InvariantCulture).Replace('-', '−');
}
