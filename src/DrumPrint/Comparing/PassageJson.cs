using System.Text.Json;
using DrumPrint.Comparing.Pairs;

namespace DrumPrint.Comparing;

/// <summary>The passage of a comparison as JSON, with its bars and sections.</summary>
internal static class PassageJson
{
    public static void Write(Utf8JsonWriter json, Passage passage)
    {
        json.WriteStartObject("passage");
        json.WriteNumber("from_s", Math.Round(passage.FromS, 6));
        json.WriteNumber("to_s", Math.Round(passage.ToS, 6));
        ComparisonJson.WriteNumber(json, "from_bar", passage.FromBar);
        ComparisonJson.WriteNumber(json, "to_bar", passage.ToBar);
        json.WriteNumber("from_frame", passage.FromFrame);
        json.WriteNumber("frames", passage.Frames);
        json.WriteNumber("rate_hz", passage.RateHz);
        json.WriteString("chosen", passage.How switch
        {
            PassageChoice.Asked => "asked",
            PassageChoice.Busiest => "busiest",
            _ => "whole",
        });
        json.WriteString("words", passage.Words);
        WriteBars(json, passage);
        json.WriteEndObject();
    }

    // One bar more than the passage has, so that the last one has an end.
    private static void WriteBars(Utf8JsonWriter json, Passage passage)
    {
        json.WriteStartArray("bars");
        if (passage is { Tempo: { } map, FromBar: { } first, ToBar: { } last })
        {
            for (var bar = first; bar <= last + 1; bar++)
            {
                json.WriteStartObject();
                json.WriteNumber("bar", bar);
                json.WriteNumber("at_s", Math.Round(map.SecondsAtBar(bar), 6));
                json.WriteNumber("beats", map.StretchAt(bar).Beats);
                json.WriteEndObject();
            }
        }

        json.WriteEndArray();
        json.WriteStartArray("sections");
        var sections = passage.Tempo?.Sections ?? [];
        foreach (var section in sections.Where((s, i) => s.FromBar <= passage.ToBar && (i + 1 == sections.Count || sections[i + 1].FromBar > passage.FromBar)))
        {
            json.WriteStartObject();
            json.WriteString("name", section.Name);
            json.WriteNumber("at_s", Math.Round(passage.Tempo!.SecondsAtBar(section.FromBar), 6));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
