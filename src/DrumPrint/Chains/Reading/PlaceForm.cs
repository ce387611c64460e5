using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>A place: three bare numbers in a list.</summary>
internal sealed class PlaceForm : ParameterForm<PlaceParameter, ArrayNode>
{
    private const int Numbers = 3;

    protected override object? Read(FormReader form, PlaceParameter parameter, ArrayNode node, Position keyAt, string place)
    {
        if (node.Items.FirstOrDefault(i => i is not NumberNode) is { } other)
        {
            return form.Told(other.Position, place, $"'{parameter.Key}' has {NodeWords.Kind(other)} in it; it takes {Takes(parameter)}.");
        }

        double[] numbers = [.. node.Items.Select(i => ((NumberNode)i).Number)];
        if (numbers.Length != Numbers)
        {
            return form.Told(node.Position, place, $"'{parameter.Key}' has {Words.Count(numbers.Length, "number")}; it takes {Takes(parameter)}.");
        }

        return numbers.FirstOrDefault(n => Math.Abs(n) > PlaceParameter.Farthest) is var far and not 0
            ? form.Told(node.Position, place, $"'{parameter.Key}' has {Show.Number(far)} in it; places lie within {Show.Number(PlaceParameter.Farthest)} m each way. Are these centimetres? Write metres.")
            : new MicrophonePlace(numbers[0], numbers[1], numbers[2]);
    }

    protected override void Describe(SchemaWriter schema, PlaceParameter parameter)
    {
        schema.Plain(parameter, "array");
        schema.Json.WriteStartObject("items");
        schema.Json.WriteString("type", "number");
        schema.Json.WriteNumber("minimum", -PlaceParameter.Farthest);
        schema.Json.WriteNumber("maximum", PlaceParameter.Farthest);
        schema.Json.WriteEndObject();
        schema.Json.WriteNumber("minItems", Numbers);
        schema.Json.WriteNumber("maxItems", Numbers);
    }

    protected override string Takes(PlaceParameter parameter) => "three numbers in [ ], in metres, such as [0.2, 1.4, 0.9]";
}
