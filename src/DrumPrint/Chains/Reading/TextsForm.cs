using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;

namespace DrumPrint.Chains.Reading;

/// <summary>A list of texts.</summary>
internal sealed class TextsForm : ParameterForm<TextsParameter, ArrayNode>
{
    protected override object? Read(FormReader form, TextsParameter parameter, ArrayNode node, Position keyAt, string place) =>
        node.Items.All(i => i is TextNode) ? node.Items.Select(i => ((TextNode)i).Text).ToList() : form.WrongKind(parameter, node, place);

    protected override void Describe(SchemaWriter schema, TextsParameter parameter)
    {
        schema.Plain(parameter, "array");
        schema.Json.WriteStartObject("items");
        schema.Json.WriteString("type", "string");
        schema.Json.WriteEndObject();
    }

    protected override string Takes(TextsParameter parameter) => "a list of texts in [ ]";
}
