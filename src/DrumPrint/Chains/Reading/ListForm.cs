using System.Text.Json;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>A list whose items each name their kind.</summary>
internal sealed class ListForm : ParameterForm<ListParameter, ArrayNode>
{
    public override void Write(Utf8JsonWriter json, Parameter parameter, object value)
    {
        json.WriteStartArray(parameter.Key);
        foreach (var item in (IReadOnlyList<Item>)value)
        {
            json.WriteStartObject();
            json.WriteStartObject(item.Kind.Key);
            ParameterForms.Write(json, item.Kind.Parameters, item.Settings);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public override string TakesOnPage(Parameter parameter) => $"a list of {Kinds((ListParameter)parameter)}";

    // One of each kind; of those that take the same settings, and of processors, the first.
    public override string? Example(Parameter parameter) =>
        $"[ {string.Join(", ", ((ListParameter)parameter).Kinds.DistinctBy(k => k is ProcessorKind ? null : k.Parameters).Select(k => ParameterForms.Example(k.Key, k.Parameters)))} ]";

    protected override object? Read(FormReader form, ListParameter parameter, ArrayNode node, Position keyAt, string place) => form.Items.Items(parameter, node, place);

    protected override void Describe(SchemaWriter schema, ListParameter parameter)
    {
        schema.Plain(parameter, "array");
        if (parameter.Kinds[0] is ProcessorKind)
        {
            schema.Reference("items", SchemaWriter.InnerProcessor);
            return;
        }

        schema.Json.WriteStartObject("items");
        schema.OneOf(parameter.Kinds.Select(k => k.Key), key => schema.Body(StageKeys.Shape(parameter.Kinds.First(k => k.Key == key))));
        schema.Json.WriteEndObject();
    }

    protected override string Takes(ListParameter parameter) => $"a list in [ ] of {Kinds(parameter)}";

    private static string Kinds(ListParameter parameter) => Show.List([.. parameter.Kinds.Select(k => k.Key)]);
}
