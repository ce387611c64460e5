using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Chains.Describing;

/// <summary>
/// The description of the file formats as JSON Schema, draft 2020-12, by which an editor completes and checks a file while it
/// is written. Made from the same declarations the reader goes by.
/// </summary>
/// <remarks>What takes two values to see, such as a name that must be declared elsewhere, only the reader checks.</remarks>
public static class ChainSchema
{
    private const string Draft = "https://json-schema.org/draft/2020-12/schema";

    private static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private static readonly Shape[] Entries = [TrackKeys.Shape, ImpulseKeys.Shape, BusKeys.Shape, FeedKeys.Shape, RideKeys.Shape, PrintKeys.Shape];

    /// <summary>The schema of a chain file.</summary>
    /// <param name="catalogue">The processors it may name; all there are when left out.</param>
    public static string Text(IReadOnlyList<ProcessorDefinition>? catalogue = null) =>
        Document("DrumPrint chain", ChainKeys.Shape, json =>
        {
            foreach (var shape in Entries)
            {
                json.WriteStartObject(Id(shape));
                Body(json, shape);
                json.WriteEndObject();
            }

            Processors(json, catalogue ?? Catalogue.All);
        });

    /// <summary>The schema of a tempo file.</summary>
    public static string TempoText() => Text("DrumPrint tempo map", TempoKeys.Shape, [TempoBarKeys.Shape, SectionKeys.Shape]);

    /// <summary>The schema of a file that names no processors.</summary>
    /// <param name="title">What the file is.</param>
    /// <param name="root">Its declaration.</param>
    /// <param name="entries">Shapes of the entries of its lists.</param>
    internal static string Text(string title, Shape root, IReadOnlyList<Shape> entries) => Document(title, root, json =>
    {
        foreach (var shape in entries)
        {
            json.WriteStartObject(Id(shape));
            Body(json, shape);
            json.WriteEndObject();
        }
    });

    private static string Document(string title, Shape root, Action<Utf8JsonWriter> definitions)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Options))
        {
            json.WriteStartObject();
            json.WriteString("$schema", Draft);
            json.WriteString("title", title);

            // Not of the standard, but some editors then know that comments and trailing commas are fine.
            json.WriteBoolean("allowComments", true);
            json.WriteBoolean("allowTrailingCommas", true);
            Body(json, root);
            json.WriteStartObject("$defs");
            definitions(json);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length) + "\n";
    }

    private static void Body(Utf8JsonWriter json, Shape shape)
    {
        json.WriteString("description", shape.Summary);
        if (shape.Shorthand is null && !shape.CanBeSwitched)
        {
            Group(json, shape.Keys);
            return;
        }

        json.WriteStartArray("anyOf");
        json.WriteStartObject();
        if (shape.Shorthand is { } key)
        {
            Value(json, key);
        }
        else
        {
            json.WriteString("type", "boolean");
        }

        json.WriteEndObject();
        json.WriteStartObject();
        Group(json, shape.Keys);
        json.WriteEndObject();
        json.WriteEndArray();
    }

    private static void Group(Utf8JsonWriter json, IReadOnlyList<Parameter> keys)
    {
        json.WriteString("type", "object");
        json.WriteStartObject("properties");
        foreach (var key in keys)
        {
            json.WriteStartObject(key.Key);
            Value(json, key);
            json.WriteEndObject();
        }

        json.WriteEndObject();
        if (keys.Any(k => k.IsRequired))
        {
            json.WriteStartArray("required");
            foreach (var key in keys.Where(k => k.IsRequired))
            {
                json.WriteStringValue(key.Key);
            }

            json.WriteEndArray();
        }

        json.WriteBoolean("additionalProperties", false);
    }

    private static void Value(Utf8JsonWriter json, Parameter parameter)
    {
        switch (parameter)
        {
            case ShapeParameter { DescribedIn: { } schema }:
                json.WriteString("description", $"{parameter.Help} Described in {schema}.");
                json.WriteString("type", "object");
                break;
            case TextsParameter:
                json.WriteString("description", parameter.Help);
                json.WriteString("type", "array");
                json.WriteStartObject("items");
                json.WriteString("type", "string");
                json.WriteEndObject();
                break;
            case ShapeParameter group:
                Body(json, group.Shape);
                break;
            case NamedShapesParameter named:
                json.WriteString("description", named.Help);
                json.WriteString("type", "object");
                Reference(json, "additionalProperties", Id(named.Shape));
                Least(json, "minProperties", named.WhenEmpty);
                break;
            case ShapesParameter shapes:
                json.WriteString("description", shapes.Help);
                json.WriteString("type", "array");
                Reference(json, "items", Id(shapes.Shape));
                Least(json, "minItems", shapes.WhenEmpty);
                break;
            case StagesParameter:
                json.WriteString("description", parameter.Help);
                json.WriteString("type", "array");
                Reference(json, "items", "processor");
                break;
            case ListParameter list:
                json.WriteString("description", list.Help);
                json.WriteString("type", "array");
                json.WriteStartObject("items");
                OneOf(json, list.Kinds.Select(k => k.Key), key => Body(json, StageKeys.Shape(list.Kinds.First(k => k.Key == key))));
                json.WriteEndObject();
                break;
            case NumberParameter number:
                Number(json, number);
                break;
            case ChoiceParameter choice:
                Choice(json, choice);
                break;
            case ToggleParameter toggle:
                json.WriteString("description", toggle.Help);
                json.WriteString("type", "boolean");
                json.WriteBoolean("default", toggle.Default);
                break;
            case TextParameter text:
                Text(json, text);
                break;
            default:
                json.WriteString("description", parameter.Help);
                json.WriteString("type", "string");
                break;
        }
    }

    private static void Number(Utf8JsonWriter json, NumberParameter number)
    {
        json.WriteString("description", number.LeftOut is { } words ? $"{number.Help} Left out: {words}." : number.Help);
        json.WriteString("type", number.IsWhole ? "integer" : "number");
        if (number.Steps is { } steps)
        {
            json.WriteStartArray("enum");
            foreach (var step in steps)
            {
                json.WriteNumberValue(step);
            }

            json.WriteEndArray();
        }
        else
        {
            json.WriteNumber("minimum", number.Minimum);
            json.WriteNumber("maximum", number.Maximum);
        }

        if (number.Default is { } value)
        {
            json.WriteNumber("default", value);
        }

        if (number.Unit.Symbol().Length > 0)
        {
            json.WriteString("x-unit", number.Unit.Symbol());
        }
    }

    private static void Choice(Utf8JsonWriter json, ChoiceParameter choice)
    {
        json.WriteString("description", Wording.Help(choice));
        json.WriteStartArray("enum");
        foreach (var word in choice.Choices)
        {
            Word(json, word.Word);
        }

        json.WriteEndArray();
        json.WritePropertyName("default");
        Word(json, choice.Default);
    }

    private static void Word(Utf8JsonWriter json, string word)
    {
        if (int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            json.WriteNumberValue(number);
        }
        else
        {
            json.WriteStringValue(word);
        }
    }

    private static void Text(Utf8JsonWriter json, TextParameter text)
    {
        json.WriteString("description", text.Help);
        json.WriteString("type", "string");
        switch (text.Kind)
        {
            case TextKind.FileNamePart:
                json.WriteString("pattern", FileNames.Pattern);
                break;
            case TextKind.Path:
                json.WriteString("pattern", @"^[^\\]+$");
                break;
            case TextKind.Metre:
                json.WriteString("pattern", "^([1-9]|[12][0-9]|3[0-2])/(1|2|4|8|16|32)$");
                break;
            case TextKind.Sha256:
                json.WriteString("pattern", "^[0-9a-f]{64}$");
                break;
            case TextKind.Title:
                json.WriteNumber("minLength", 1);
                break;
        }

        if (text.Default is { } value)
        {
            json.WriteString("default", value);
        }
    }

    private static void Processors(Utf8JsonWriter json, IReadOnlyList<ProcessorDefinition> catalogue)
    {
        var processors = catalogue.GroupBy(d => d.Key, StringComparer.Ordinal).ToList();
        json.WriteStartObject("processor");
        json.WriteString("description", "One processor under its name.");
        OneOf(json, processors.Select(p => p.Key), key => json.WriteString("$ref", $"#/$defs/{ProcessorId(key)}"));
        json.WriteEndObject();
        foreach (var processor in processors)
        {
            var revisions = processor.OrderByDescending(d => d.Revision).ToList();
            json.WriteStartObject(ProcessorId(processor.Key));
            json.WriteString("description", revisions[0].Summary);
            if (revisions.Count == 1)
            {
                Revision(json, revisions[0], isNewest: true);
            }
            else
            {
                json.WriteStartArray("anyOf");
                foreach (var definition in revisions)
                {
                    json.WriteStartObject();
                    Revision(json, definition, definition == revisions[0]);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
            }

            json.WriteEndObject();
        }
    }

    // The newest is meant when no revision is given; an older one must be named.
    private static void Revision(Utf8JsonWriter json, ProcessorDefinition definition, bool isNewest)
    {
        var revision = new NumberParameter(StageKeys.Revision.Key, Unit.None, definition.Revision, definition.Revision, null, StageKeys.Revision.Help)
        {
            IsWhole = true,
            IsRequired = !isNewest,
        };
        Group(json, [revision, .. StageKeys.Shape(definition).Keys.Where(k => k != StageKeys.Revision)]);
    }

    private static void OneOf(Utf8JsonWriter json, IEnumerable<string> keys, Action<string> body)
    {
        json.WriteString("type", "object");
        json.WriteStartObject("properties");
        foreach (var key in keys)
        {
            json.WriteStartObject(key);
            body(key);
            json.WriteEndObject();
        }

        json.WriteEndObject();
        json.WriteNumber("minProperties", 1);
        json.WriteNumber("maxProperties", 1);
        json.WriteBoolean("additionalProperties", false);
    }

    private static void Reference(Utf8JsonWriter json, string key, string id)
    {
        json.WriteStartObject(key);
        json.WriteString("$ref", $"#/$defs/{id}");
        json.WriteEndObject();
    }

    private static void Least(Utf8JsonWriter json, string key, string? whenEmpty)
    {
        if (whenEmpty is not null)
        {
            json.WriteNumber(key, 1);
        }
    }

    private static string ProcessorId(string key) => $"processor_{key}";

    // "a tempo entry" becomes "tempo_entry".
    private static string Id(Shape shape) => shape.Name[(shape.Name.IndexOf(' ', StringComparison.Ordinal) + 1)..].Replace(' ', '_');
}
