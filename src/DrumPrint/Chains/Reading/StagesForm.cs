using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;

namespace DrumPrint.Chains.Reading;

/// <summary>A list of processors.</summary>
internal sealed class StagesForm : ParameterForm<StagesParameter, ArrayNode>
{
    protected override object? Read(FormReader form, StagesParameter parameter, ArrayNode node, Position keyAt, string place) => form.Items.Stages(node, place);

    protected override void Describe(SchemaWriter schema, StagesParameter parameter)
    {
        schema.Plain(parameter, "array");
        schema.Reference("items", SchemaWriter.Processor);
    }

    protected override string Takes(StagesParameter parameter) => "a list of processors in [ ]";
}
