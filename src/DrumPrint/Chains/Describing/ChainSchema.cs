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

    private static readonly Shape[] Entries = [TrackKeys.Shape, ImpulseKeys.Shape, BusKeys.Shape, FeedKeys.Shape, RideKeys.Shape, PrintKeys.Shape, AcceptedKeys.Shape, WishKeys.Shape];

    /// <summary>The schema of a chain file.</summary>
    /// <param name="catalogue">The processors it may name; all there are when left out.</param>
    public static string Text(IReadOnlyList<ProcessorDefinition>? catalogue = null) =>
        Document("DrumPrint chain", ChainKeys.Shape, schema =>
        {
            Definitions(schema, Entries);
            Processors(schema, catalogue ?? Catalogue.All);
            InnerProcessors(schema, catalogue ?? Catalogue.All);
        });

    /// <summary>The schema of a recipe, which several chains may use.</summary>
    public static string RecipeText() => Document("DrumPrint recipe", RecipeKeys.Shape, schema =>
    {
        Definitions(schema, [ImpulseKeys.Shape, BusKeys.Shape, FeedKeys.Shape, RideKeys.Shape, PrintKeys.Shape]);
        Processors(schema, Catalogue.All);
    });

    /// <summary>The schema of a tempo file.</summary>
    public static string TempoText() => Text("DrumPrint tempo map", TempoKeys.Shape, [TempoBarKeys.Shape, SectionKeys.Shape]);

    /// <summary>The schema of a file that names no processors.</summary>
    /// <param name="title">What the file is.</param>
    /// <param name="root">Its declaration.</param>
    /// <param name="entries">Shapes of the entries of its lists.</param>
    internal static string Text(string title, Shape root, IReadOnlyList<Shape> entries) => Document(title, root, schema => Definitions(schema, entries));

    private static string Document(string title, Shape root, Action<SchemaWriter> definitions)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Options))
        {
            var schema = new SchemaWriter(json);
            json.WriteStartObject();
            json.WriteString("$schema", Draft);
            json.WriteString("title", title);

            // Not of the standard, but some editors then know that comments and trailing commas are fine.
            json.WriteBoolean("allowComments", true);
            json.WriteBoolean("allowTrailingCommas", true);
            schema.Body(root);
            json.WriteStartObject("$defs");
            definitions(schema);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length) + "\n";
    }

    private static void Definitions(SchemaWriter schema, IReadOnlyList<Shape> shapes)
    {
        foreach (var shape in shapes)
        {
            schema.Json.WriteStartObject(SchemaWriter.Id(shape));
            schema.Body(shape);
            schema.Json.WriteEndObject();
        }
    }

    private static void Processors(SchemaWriter schema, IReadOnlyList<ProcessorDefinition> catalogue)
    {
        var processors = catalogue.GroupBy(d => d.Key, StringComparer.Ordinal).ToList();
        var json = schema.Json;
        json.WriteStartObject(SchemaWriter.Processor);
        json.WriteString("description", "One processor under its name.");
        schema.OneOf(processors.Select(p => p.Key), key => json.WriteString("$ref", $"#/$defs/{ProcessorId(key)}"));
        json.WriteEndObject();
        foreach (var processor in processors)
        {
            var revisions = processor.OrderByDescending(d => d.Revision).ToList();
            json.WriteStartObject(ProcessorId(processor.Key));
            json.WriteString("description", revisions[0].Summary);
            if (revisions.Count == 1)
            {
                Revision(schema, revisions[0], isNewest: true);
            }
            else
            {
                json.WriteStartArray("anyOf");
                foreach (var definition in revisions)
                {
                    json.WriteStartObject();
                    Revision(schema, definition, definition == revisions[0]);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
            }

            json.WriteEndObject();
        }
    }

    // Those that stand inside others; all lists of them take the same ones.
    private static void InnerProcessors(SchemaWriter schema, IReadOnlyList<ProcessorDefinition> catalogue)
    {
        var kinds = Inner(catalogue.SelectMany(d => d.Parameters)).DistinctBy(k => k.Key).ToDictionary(k => k.Key, StringComparer.Ordinal);
        if (kinds.Count == 0)
        {
            return;
        }

        schema.Json.WriteStartObject(SchemaWriter.InnerProcessor);
        schema.Json.WriteString("description", "One processor of a band under its name.");
        schema.OneOf(kinds.Keys, key => schema.Body(StageKeys.Shape(kinds[key])));
        schema.Json.WriteEndObject();
    }

    private static IEnumerable<ProcessorKind> Inner(IEnumerable<Parameter> parameters)
    {
        var kinds = parameters.OfType<ListParameter>().SelectMany(l => l.Kinds).ToList();
        return kinds.Count == 0 ? [] : kinds.OfType<ProcessorKind>().Concat(Inner(kinds.Where(k => k is not ProcessorKind).SelectMany(k => k.Parameters)));
    }

    // The newest is meant when no revision is given; an older one must be named.
    private static void Revision(SchemaWriter schema, ProcessorDefinition definition, bool isNewest)
    {
        var revision = new NumberParameter(StageKeys.Revision.Key, Unit.None, definition.Revision, definition.Revision, null, StageKeys.Revision.Help)
        {
            IsWhole = true,
            IsRequired = !isNewest,
        };
        schema.Group([revision, .. StageKeys.Shape(definition).Keys.Where(k => k != StageKeys.Revision)]);
    }

    private static string ProcessorId(string key) => $"processor_{key}";
}
