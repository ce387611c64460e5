using System.Text;
using System.Text.Json;

namespace DrumPrint.Tests.Chains;

/// <summary>Writes a JSON text once more with other spaces, comments, commas, number forms and order of keys.</summary>
internal sealed class Reformatted(int seed)
{
    // The order of these entries is part of what a chain says.
    private static readonly string[] Ordered = ["tracks", "impulses", "buses", "from"];

    private readonly Random _random = new(seed);
    private readonly StringBuilder _text = new();

    public string Write(string json)
    {
        using var document = JsonDocument.Parse(json);
        Value(document.RootElement, keepsOrder: false);
        return _text.ToString();
    }

    private void Value(JsonElement value, bool keepsOrder)
    {
        Space();
        switch (value.ValueKind)
        {
            case JsonValueKind.Object:
                var members = value.EnumerateObject().ToList();
                List('{', '}', keepsOrder ? members : [.. members.OrderBy(_ => _random.Next())], member =>
                {
                    Space();
                    _text.Append(JsonSerializer.Serialize(member.Name)).Append(_random.Next(2) == 0 ? " \n:" : ":");
                    Value(member.Value, Ordered.Contains(member.Name));
                });
                break;
            case JsonValueKind.Array:
                List('[', ']', [.. value.EnumerateArray()], item => Value(item, keepsOrder: false));
                break;
            case JsonValueKind.Number when _random.Next(2) == 0:
                _text.Append(value.GetDouble().ToString("E17", System.Globalization.CultureInfo.InvariantCulture));
                break;
            default:
                _text.Append(value.GetRawText());
                break;
        }

        Space();
    }

    private void List<T>(char open, char close, List<T> items, Action<T> write)
    {
        _text.Append(open);
        for (var i = 0; i < items.Count; i++)
        {
            write(items[i]);
            if (i < items.Count - 1 || _random.Next(2) == 0)
            {
                _text.Append(',');
            }
        }

        Space();
        _text.Append(close);
    }

    private void Space() => _text.Append(_random.Next(8) switch
    {
        0 => "\r\n",
        1 => "\n\t",
        2 => " // so \"be\" it, {\n",
        3 => "/* [ * / */",
        _ => "",
    });
}
