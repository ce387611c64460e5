using System.Globalization;
using System.Text.Json;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>A word in quotes; a word that is a number stands bare.</summary>
internal sealed class ChoiceForm : ParameterForm<ChoiceParameter, TextNode>
{
    public override object? Read(FormReader form, Parameter parameter, TreeNode node, Position keyAt, string place) =>
        node is NumberNode { Number: var number } && ((ChoiceParameter)parameter).Choices.Any(c => c.Word == Show.Number(number))
            ? Show.Number(number)
            : base.Read(form, parameter, node, keyAt, place);

    public override void Write(Utf8JsonWriter json, Parameter parameter, object value)
    {
        json.WritePropertyName(parameter.Key);
        Word(json, (string)value);
    }

    public override string TakesOnPage(Parameter parameter) => Show.List([.. ((ChoiceParameter)parameter).Choices.Select(c => c.Word)], "or");

    public override string? LeftOut(Parameter parameter) => ((ChoiceParameter)parameter).Default;

    public override string? Example(Parameter parameter) => $"\"{((ChoiceParameter)parameter).Default}\"";

    public override string Help(Parameter parameter) =>
        $"{parameter.Help} {string.Join("; ", ((ChoiceParameter)parameter).Choices.Select(c => $"{c.Word}: {c.Help.TrimEnd('.')}"))}.";

    public override string Hint(Parameter parameter, object value) =>
        Wording.DidYouMean(Nearest.Word((string)value, ((ChoiceParameter)parameter).Choices.Select(c => c.Word)));

    protected override object? Read(FormReader form, ChoiceParameter parameter, TextNode node, Position keyAt, string place)
    {
        if (!IsNumber(node.Text))
        {
            return form.Checked(parameter, node.Text, node, place);
        }

        form.Problem(node.Position, place, $"{Wording.WrongKind($"'{parameter.Key}'", node, Takes(parameter))} Write the bare number: {Show.Name(node.Text)}.");
        return null;
    }

    protected override void Describe(SchemaWriter schema, ChoiceParameter parameter)
    {
        var json = schema.Json;
        json.WriteString("description", Help(parameter));
        json.WriteStartArray("enum");
        foreach (var word in parameter.Choices)
        {
            Word(json, word.Word);
        }

        json.WriteEndArray();
        json.WritePropertyName("default");
        Word(json, parameter.Default);
    }

    protected override string Takes(ChoiceParameter parameter) =>
        $"one of {string.Join(", ", parameter.Choices.Select(c => IsNumber(c.Word) ? c.Word : $"\"{c.Word}\""))}";

    private static bool IsNumber(string word) => word.Length > 0 && word.All(char.IsAsciiDigit);

    private static void Word(Utf8JsonWriter json, string word)
    {
        if (int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            json.WriteNumberValue(number);
        }
        else
        {
            json.WriteStringValue(word);
        }
    }
}
