using System.Text.Json;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Reading;

/// <summary>true or false.</summary>
internal sealed class ToggleForm : ParameterForm<ToggleParameter, ToggleNode>
{
    public override void Write(Utf8JsonWriter json, Parameter parameter, object value) => json.WriteBoolean(parameter.Key, (bool)value);

    public override string? LeftOut(Parameter parameter) => Word((ToggleParameter)parameter);

    public override string? Example(Parameter parameter) => Word((ToggleParameter)parameter);

    protected override object? Read(FormReader form, ToggleParameter parameter, ToggleNode node, Position keyAt, string place) => node.IsOn;

    protected override void Describe(SchemaWriter schema, ToggleParameter parameter)
    {
        schema.Json.WriteString("description", parameter.Help);
        schema.Json.WriteString("type", "boolean");
        schema.Json.WriteBoolean("default", parameter.Default);
    }

    protected override string Takes(ToggleParameter parameter) => parameter.Takes;

    private static string Word(ToggleParameter parameter) => parameter.Default ? "true" : "false";
}
