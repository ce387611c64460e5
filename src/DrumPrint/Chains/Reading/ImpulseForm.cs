using System.Text.Json;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Reading;

/// <summary>The name of an impulse that the chain declares.</summary>
internal sealed class ImpulseForm : ParameterForm<ImpulseParameter, TextNode>
{
    public override void Write(Utf8JsonWriter json, Parameter parameter, object value) => json.WriteString(parameter.Key, (string)value);

    public override string? Example(Parameter parameter) => "\"my hall\"";

    protected override object? Read(FormReader form, ImpulseParameter parameter, TextNode node, Position keyAt, string place) =>
        form.Refer(ReferenceKind.Impulse, node.Text, node.Position, place);

    protected override void Describe(SchemaWriter schema, ImpulseParameter parameter) => schema.Plain(parameter, "string");

    protected override string Takes(ImpulseParameter parameter) => $"{parameter.Takes}, in quotes";
}
