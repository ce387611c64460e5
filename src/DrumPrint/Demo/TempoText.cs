using System.Text;
using DrumPrint.Chains;

namespace DrumPrint.Demo;

/// <summary>The tempo file of the session as people would write it.</summary>
internal static class TempoText
{
    public static string Of(TempoMap map)
    {
        var text = new StringBuilder();
        text.Append("{\n  \"tempo_map\": 1,\n  \"bars\": [\n");
        text.AppendJoin(",\n", map.Stretches.Select(s => FormattableString.Invariant(
            $"    {{ \"from_bar\": {s.FromBar}, \"metre\": \"{s.Beats}/{s.BeatUnit}\", \"bpm\": {s.Bpm} }}")));
        text.Append("\n  ],\n");
        text.Append(FormattableString.Invariant($"  \"last_bar\": {map.LastBar},\n"));
        text.Append("  \"sections\": [\n");
        text.AppendJoin(",\n", map.Sections.Select(s => FormattableString.Invariant(
            $"    {{ \"from_bar\": {s.FromBar}, \"name\": \"{s.Name}\" }}")));
        text.Append("\n  ]\n}\n");
        return text.ToString();
    }
}
