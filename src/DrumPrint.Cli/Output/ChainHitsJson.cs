using System.Text.Json;
using DrumPrint.Measuring;

namespace DrumPrint.Cli.Output;

/// <summary>Writes as JSON under which hits a chain plays sounds, and what its <c>spill</c> takes from hits.</summary>
internal static class ChainHitsJson
{
    public static void Write(Stream stream, IReadOnlyList<LayerRecord> layers, IReadOnlyList<SpillRecord> spills)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("engine", EngineVersion.Text);
        json.WriteStartArray("layers");
        foreach (var layer in layers)
        {
            Layer(json, layer);
        }

        json.WriteEndArray();
        json.WriteStartArray("spills");
        foreach (var spill in spills)
        {
            Spill(json, spill);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Layer(Utf8JsonWriter json, LayerRecord layer)
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
            Decibels(json, "level_db", hit.LevelDb);
            Decibels(json, "gain_db", hit.GainDb);
            json.WriteBoolean("inverted", hit.IsInverted);
            json.WriteNumber("alike_pct", Math.Round(hit.LikenessPct, 1) + 0);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Spill(Utf8JsonWriter json, SpillRecord spill)
    {
        json.WriteStartObject();
        json.WriteString("bus", spill.Bus);
        json.WriteString("key", spill.Key);
        json.WriteNumber("line", spill.Line);
        Decibels(json, "amount_db", spill.AmountDb);
        foreach (var (name, hits) in new[] { ("hits", spill.Hits), ("ghosts", spill.Ghosts), ("spill", spill.Spill) })
        {
            json.WriteStartArray(name);
            foreach (var hit in hits)
            {
                json.WriteStartObject();
                json.WriteString("bar_beat", hit.Place);
                json.WriteNumber("seconds", Math.Round(hit.Seconds, 4) + 0);
                Decibels(json, "level_db", hit.LevelDb);
                Decibels(json, "change_db", hit.ChangeDb);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        json.WriteEndObject();
    }

    // Silence has a figure too, as low as none is heard.
    private static void Decibels(Utf8JsonWriter json, string key, double value) => json.WriteNumber(key, Math.Round(Math.Max(value, -200), 1) + 0);
}
