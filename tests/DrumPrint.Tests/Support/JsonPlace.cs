using System.Text.Json.Nodes;

namespace DrumPrint.Tests.Support;

/// <summary>Walks and edits JSON by places: names of members and numbers of items, from the root down.</summary>
internal static class JsonPlace
{
    /// <summary>The places of all values that hold no others.</summary>
    public static IEnumerable<object[]> Leaves(JsonNode node, object[] place) => node is JsonValue
        ? [place]
        : Children(node).SelectMany(c => Leaves(c.Child, [.. place, c.Key]));

    public static IEnumerable<(object Key, JsonNode Child)> Children(JsonNode node) => node switch
    {
        JsonObject members => members.Select(m => ((object)m.Key, m.Value!)),
        JsonArray items => items.Select((item, i) => ((object)i, item!)),
        _ => [],
    };

    public static JsonNode? At(JsonNode root, object[] place) => place.Aggregate((JsonNode?)root, (node, step) => step is int index ? node![index] : node![(string)step]);

    public static void Put(JsonNode root, object[] place, JsonNode value)
    {
        var parent = At(root, place[..^1])!;
        if (place[^1] is int index)
        {
            parent[index] = value;
        }
        else
        {
            parent[(string)place[^1]] = value;
        }
    }

    public static void Remove(JsonNode root, object[] place)
    {
        var parent = At(root, place[..^1])!;
        if (parent is JsonArray array)
        {
            array.RemoveAt((int)place[^1]);
        }
        else
        {
            parent.AsObject().Remove((string)place[^1]);
        }
    }

    /// <summary>Changes places with the one before; false for the first, which has none.</summary>
    public static bool MoveUp(JsonNode root, object[] place)
    {
        switch (At(root, place[..^1]), place[^1])
        {
            case (JsonArray array, int index) when index > 0:
                var item = array[index];
                array.RemoveAt(index);
                array.Insert(index - 1, item);
                return true;
            case (JsonObject members, string key) when members.IndexOf(key) is > 0 and var index:
                var member = members.GetAt(index);
                members.RemoveAt(index);
                members.Insert(index - 1, member.Key, member.Value);
                return true;
            default:
                return false;
        }
    }
}
