using System.Text.Json;
using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Reading;

/// <summary>Describes the shapes of a file in the words of JSON Schema, draft 2020-12.</summary>
internal sealed class SchemaWriter(Utf8JsonWriter json)
{
    /// <summary>The definition of a processor under its name.</summary>
    public const string Processor = "processor";

    /// <summary>The definition of a processor inside another.</summary>
    public const string InnerProcessor = "processor_in_band";

    public Utf8JsonWriter Json { get; } = json;

    /// <summary>The name of a shape's definition: "a tempo entry" becomes "tempo_entry".</summary>
    public static string Id(Shape shape) => shape.Name[(shape.Name.IndexOf(' ', StringComparison.Ordinal) + 1)..].Replace(' ', '_');

    /// <summary>A shape, inside its braces.</summary>
    public void Body(Shape shape)
    {
        Json.WriteString("description", shape.Summary);
        if (shape.Shorthand is null && !shape.CanBeSwitched)
        {
            Group(shape);
            return;
        }

        Json.WriteStartArray("anyOf");
        Json.WriteStartObject();
        if (shape.Shorthand is { } key)
        {
            Value(key);
        }
        else
        {
            Json.WriteString("type", "boolean");
        }

        Json.WriteEndObject();
        Json.WriteStartObject();
        Group(shape);
        Json.WriteEndObject();
        Json.WriteEndArray();
    }

    private void Group(Shape shape)
    {
        Group([.. shape.Keys], shape.Lent);
        if (shape.Lender is { } lender)
        {
            Json.WriteStartArray("anyOf");
            Required([lender]);
            Required(shape.Lent);
            Json.WriteEndArray();
        }

        if (shape.OneOf.Count == 0)
        {
            return;
        }

        Json.WriteStartArray("oneOf");
        foreach (var key in shape.OneOf)
        {
            Required([key]);
        }

        Json.WriteEndArray();
    }

    private void Required(IReadOnlyList<Parameter> keys)
    {
        Json.WriteStartObject();
        Json.WriteStartArray("required");
        foreach (var key in keys)
        {
            Json.WriteStringValue(key.Key);
        }

        Json.WriteEndArray();
        Json.WriteEndObject();
    }

    /// <summary>Keys and no others.</summary>
    /// <param name="keys">The keys.</param>
    /// <param name="lent">Keys that may come from elsewhere; none when left out.</param>
    public void Group(IReadOnlyList<Parameter> keys, IReadOnlyList<Parameter>? lent = null)
    {
        Json.WriteString("type", "object");
        Json.WriteStartObject("properties");
        foreach (var key in keys)
        {
            Json.WriteStartObject(key.Key);
            Value(key);
            Json.WriteEndObject();
        }

        Json.WriteEndObject();
        if (keys.Any(IsRequired))
        {
            Json.WriteStartArray("required");
            foreach (var key in keys.Where(IsRequired))
            {
                Json.WriteStringValue(key.Key);
            }

            Json.WriteEndArray();
        }

        Json.WriteBoolean("additionalProperties", false);
        bool IsRequired(Parameter key) => key.IsRequired && lent?.Contains(key) != true;
    }

    /// <summary>What a parameter does and the type of its value.</summary>
    public void Plain(Parameter parameter, string type)
    {
        Json.WriteString("description", parameter.Help);
        Json.WriteString("type", type);
    }

    /// <summary>A group of exactly one of some keys.</summary>
    public void OneOf(IEnumerable<string> keys, Action<string> body)
    {
        Json.WriteString("type", "object");
        Json.WriteStartObject("properties");
        foreach (var key in keys)
        {
            Json.WriteStartObject(key);
            body(key);
            Json.WriteEndObject();
        }

        Json.WriteEndObject();
        Json.WriteNumber("minProperties", 1);
        Json.WriteNumber("maxProperties", 1);
        Json.WriteBoolean("additionalProperties", false);
    }

    /// <summary>A key whose value a definition describes.</summary>
    public void Reference(string key, string id)
    {
        Json.WriteStartObject(key);
        Json.WriteString("$ref", $"#/$defs/{id}");
        Json.WriteEndObject();
    }

    /// <summary>That there must be one, where something is said when there is none.</summary>
    public void Least(string key, string? whenEmpty)
    {
        if (whenEmpty is not null)
        {
            Json.WriteNumber(key, 1);
        }
    }

    private void Value(Parameter parameter) => ParameterForms.Of(parameter).Describe(this, parameter);
}
