using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;

namespace DrumPrint.Chains.Reading;

/// <summary>A group of keys, or what may stand for it.</summary>
internal sealed class ShapeForm : ParameterForm<ShapeParameter, TreeNode>
{
    protected override object? Read(FormReader form, ShapeParameter parameter, TreeNode node, Position keyAt, string place) =>
        form.Read(parameter.Shape, node, keyAt, place, parameter.Key);

    protected override void Describe(SchemaWriter schema, ShapeParameter parameter)
    {
        if (parameter.DescribedIn is { } other)
        {
            schema.Json.WriteString("description", $"{parameter.Help} Described in {other}.");
            schema.Json.WriteString("type", "object");
            return;
        }

        schema.Body(parameter.Shape);
    }

    protected override string Takes(ShapeParameter parameter) => Wording.Takes(parameter.Shape);
}
