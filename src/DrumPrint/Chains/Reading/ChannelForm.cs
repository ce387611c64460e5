using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>A channel: a bare number, or a name in quotes.</summary>
internal sealed class ChannelForm : ParameterForm
{
    public override bool Fits(TreeNode node) => node is NumberNode or TextNode;

    public override object? Read(FormReader form, Parameter parameter, TreeNode node, Position keyAt, string place)
    {
        switch (node)
        {
            case NumberNode { Number: var number } when number >= 1 && number <= ChannelParameter.Most && number == Math.Floor(number):
                return new TrackChannel((int)number, null);
            case NumberNode { Number: var number }:
                var nearest = Math.Clamp(Math.Round(number), 1, ChannelParameter.Most);
                form.Problem(node.Position, place, $"'{parameter.Key}' is {Show.Number(number)}; channels are counted from 1 in whole numbers. Nearest: {Show.Number(nearest)}.");
                return null;
            case TextNode { Text: var text } when Problem(parameter, text) is { } problem:
                form.Problem(node.Position, place, problem);
                return null;
            case TextNode { Text: var text }:
                return new TrackChannel(0, text);
            default:
                return form.WrongKind(parameter, node, place);
        }
    }

    public override void Describe(SchemaWriter schema, Parameter parameter)
    {
        var json = schema.Json;
        json.WriteString("description", parameter.Help);
        json.WriteStartArray("anyOf");
        json.WriteStartObject();
        json.WriteString("type", "integer");
        json.WriteNumber("minimum", 1);
        json.WriteNumber("maximum", ChannelParameter.Most);
        json.WriteEndObject();
        json.WriteStartObject();
        json.WriteString("type", "string");
        json.WriteNumber("minLength", 1);
        json.WriteEndObject();
        json.WriteEndArray();
    }

    public override string Takes(Parameter parameter) => "the number of a channel, from 1, or its name in quotes";

    private string? Problem(Parameter parameter, string text) => text switch
    {
        _ when string.IsNullOrWhiteSpace(text) => $"'{parameter.Key}' is empty; it takes {Takes(parameter)}.",
        _ when ReadableText.Problem(text) is { } what => $"'{parameter.Key}' {what}",
        _ when text.All(char.IsAsciiDigit) => $"'{parameter.Key}' is a number in quotes. Write the bare number: {Show.Name(text)}.",
        _ => null,
    };
}
