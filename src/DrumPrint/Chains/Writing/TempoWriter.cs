using System.Globalization;
using System.Text.Json;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;

namespace DrumPrint.Chains.Writing;

/// <summary>Writes a tempo map in its canonical form: metre and tempo spelled out in every entry.</summary>
public static class TempoWriter
{
    /// <summary>The canonical text of a tempo map; reading it gives the same map.</summary>
    public static string Canonical(TempoMap tempo)
    {
        ArgumentNullException.ThrowIfNull(tempo);
        return CanonicalJson.Text(json =>
        {
            json.WriteStartObject();
            WriteKeys(json, tempo);
            json.WriteEndObject();
        });
    }

    internal static void WriteKeys(Utf8JsonWriter json, TempoMap tempo)
    {
        json.WriteNumber(TempoKeys.TempoMap.Key, TempoKeys.Format);
        json.WriteStartArray(TempoKeys.Bars.Key);
        foreach (var stretch in tempo.Stretches)
        {
            json.WriteStartObject();
            json.WriteNumber(TempoBarKeys.FromBar.Key, stretch.FromBar);
            json.WriteString(TempoBarKeys.Metre.Key, string.Create(CultureInfo.InvariantCulture, $"{stretch.Beats}/{stretch.BeatUnit}"));
            json.WriteNumber(TempoBarKeys.Bpm.Key, stretch.Bpm);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteNumber(TempoKeys.LastBar.Key, tempo.LastBar);
        json.WriteStartArray(TempoKeys.Sections.Key);
        foreach (var section in tempo.Sections)
        {
            json.WriteStartObject();
            json.WriteNumber(SectionKeys.FromBar.Key, section.FromBar);
            json.WriteString(SectionKeys.Name.Key, section.Name);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
