using System.Text.Json;
using DrumPrint.Chains;
using DrumPrint.Chains.Json;
using DrumPrint.Chains.Writing;

namespace DrumPrint.Diff;

/// <summary>Names every value in which two chains differ, by its place in the file.</summary>
internal static class ChainDifferences
{
    /// <summary>One entry for each value, such as <c>buses.kick.from.kick sub.level_db: -5 here, -7 there</c>.</summary>
    public static IReadOnlyList<string> Of(Chain one, string here, Chain other, string there)
    {
        var a = Values(one);
        var b = Values(other);
        return
        [
            .. a.Where(v => b.GetValueOrDefault(v.Key) != v.Value).Select(v => $"{v.Key}: {v.Value} {here}, {b.GetValueOrDefault(v.Key, "nothing")} {there}"),
            .. b.Where(v => !a.ContainsKey(v.Key)).Select(v => $"{v.Key}: nothing {here}, {v.Value} {there}"),
        ];
    }

    private static Dictionary<string, string> Values(Chain chain)
    {
        var values = new Dictionary<string, string>(StringComparer.Ordinal);
        Add(values, "", ChainWriter.Canonical(chain));
        if (chain.Song.Tempo is { } tempo)
        {
            Add(values, "tempo", TempoWriter.Canonical(tempo));
        }

        return values;
    }

    private static void Add(Dictionary<string, string> values, string place, string json)
    {
        using var document = JsonDocument.Parse(json);
        Add(values, place, document.RootElement);
    }

    private static void Add(Dictionary<string, string> values, string place, JsonElement value)
    {
        switch (value.ValueKind)
        {
            case JsonValueKind.Object:
                foreach (var member in value.EnumerateObject())
                {
                    Add(values, JsonPlace.Key(place, member.Name), member.Value);
                }

                break;
            case JsonValueKind.Array:
                var index = 0;
                foreach (var item in value.EnumerateArray())
                {
                    Add(values, JsonPlace.Item(place, index++), item);
                }

                break;
            default:
                values[place] = value.GetRawText();
                break;
        }
    }
}
