using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Reading;

/// <summary>A list of groups of keys.</summary>
internal sealed class ShapesForm : ParameterForm<ShapesParameter, ArrayNode>
{
    public override string? WhenEmpty(Parameter parameter) => ((ShapesParameter)parameter).WhenEmpty;

    protected override object? Read(FormReader form, ShapesParameter parameter, ArrayNode node, Position keyAt, string place)
    {
        form.RequireEntries(node.Items.Count, parameter.WhenEmpty, keyAt, place);
        return node.Items.Select((item, i) => form.Read(parameter.Shape, item, item.Position, JsonPlace.Item(place, i))).ToList();
    }

    protected override void Describe(SchemaWriter schema, ShapesParameter parameter)
    {
        schema.Plain(parameter, "array");
        schema.Reference("items", SchemaWriter.Id(parameter.Shape));
        schema.Least("minItems", parameter.WhenEmpty);
    }

    protected override string Takes(ShapesParameter parameter) => "a list in [ ]";
}
