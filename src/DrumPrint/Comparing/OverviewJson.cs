using System.Text.Json;
using DrumPrint.Comparing.Pairs;
namespace DrumPrint.Comparing;

/// <summary>The whole song of a comparison as JSON: waveforms, sections, gain reduction.</summary>
internal static class OverviewJson
{
    public static void Write(Utf8JsonWriter json, SongOverview? overview)
    {
        if (overview is null)
        {
            return;
        }

        json.WriteStartObject("overview");
        json.WriteString("title", overview.Title);
        json.WriteNumber("to_s", overview.ToS);
        ComparisonJson.WriteValues(json, "peaks_a", overview.PeaksA);
        ComparisonJson.WriteValues(json, "peaks_b", overview.PeaksB);
        json.WriteStartArray("sections");
        foreach (var section in overview.Sections)
        {
            json.WriteStartObject();
            json.WriteString("name", section.Name);
            json.WriteNumber("from_bar", section.FromBar);
            json.WriteNumber("from_s", section.FromS);
            json.WriteNumber("to_s", section.ToS);
            ComparisonJson.WriteNumber(json, "a_lufs", section.ALufs);
            ComparisonJson.WriteNumber(json, "b_lufs", section.BLufs);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        ComparisonJson.WriteCurves(json, overview.GainReductions);
        json.WriteEndObject();
    }
}
