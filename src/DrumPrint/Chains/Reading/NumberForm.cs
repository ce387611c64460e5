using System.Globalization;
using System.Text.Json;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>A bare number; or a goal, for a number that may be set by one.</summary>
internal sealed class NumberForm : ParameterForm<NumberParameter, NumberNode>
{
    public override object? Read(FormReader form, Parameter parameter, TreeNode node, Position keyAt, string place) =>
        parameter is NumberParameter { Goals.Count: > 0 } number && GoalForm.Fits(number, node) ? GoalForm.Read(form, number, node, place) : base.Read(form, parameter, node, keyAt, place);

    public override void Write(Utf8JsonWriter json, Parameter parameter, object value)
    {
        if (value is Sought sought)
        {
            GoalForm.Write(json, (NumberParameter)parameter, sought);
        }
        else
        {
            json.WriteNumber(parameter.Key, (double)value);
        }
    }

    public override string Help(Parameter parameter) => string.Join(' ', ((NumberParameter)parameter).Goals.Select(GoalForm.Help).Prepend(parameter.Help));

    public override string? LeftOut(Parameter parameter) => parameter switch
    {
        NumberParameter { LeftOut: { } words } => words,
        NumberParameter { Default: { } value } number => $"{Show.Number(value)} {number.Unit.Symbol()}".TrimEnd(),
        _ => null,
    };

    public override string? Example(Parameter parameter) => parameter switch
    {
        NumberParameter { Default: { } value } => Show.Number(value),
        NumberParameter { IsRequired: true } number => Show.Number(Likely(number)),
        _ => null,
    };

    public override string Hint(Parameter parameter, TreeNode node) =>
        node is TextNode { Text: var text } && parameter is NumberParameter its && Bare(text, its.Unit) is { } number
            ? $" Write the bare number: {Show.Number(its.BelowZero(number) ?? number)}."
            : "";

    public override string Hint(Parameter parameter, object value) =>
        parameter is NumberParameter { Unit: Unit.Hertz } number && value is double x && x < number.Minimum && number.Problem(x * 1000) is null
            ? $" If kHz were meant: {Show.Number(x * 1000)}."
            : "";

    protected override object? Read(FormReader form, NumberParameter parameter, NumberNode node, Position keyAt, string place) =>
        form.Checked(parameter, node.Number, node, place);

    protected override void Describe(SchemaWriter schema, NumberParameter parameter)
    {
        var json = schema.Json;
        json.WriteString("description", parameter.LeftOut is { } words ? $"{parameter.Help} Left out: {words}." : parameter.Help);
        if (parameter.Goals.Count > 0)
        {
            json.WriteStartArray("anyOf");
            json.WriteStartObject();
            Values(json, parameter);
            json.WriteEndObject();
            GoalForm.Describe(schema, parameter);
            json.WriteEndArray();
        }
        else
        {
            Values(json, parameter);
        }

        if (parameter.Default is { } value)
        {
            json.WriteNumber("default", value);
        }

        if (parameter.Unit.Symbol().Length > 0)
        {
            json.WriteString("x-unit", parameter.Unit.Symbol());
        }
    }

    protected override string Takes(NumberParameter parameter)
    {
        var number = parameter.Minimum == parameter.Maximum ? Show.Number(parameter.Minimum) : parameter.Takes;
        return string.Join(", or ", parameter.Goals.Select(GoalForm.Example).Prepend(number));
    }

    private static void Values(Utf8JsonWriter json, NumberParameter parameter)
    {
        json.WriteString("type", parameter.IsWhole ? "integer" : "number");
        if (parameter.Steps is { } steps)
        {
            json.WriteStartArray("enum");
            foreach (var step in steps)
            {
                json.WriteNumberValue(step);
            }

            json.WriteEndArray();
        }
        else
        {
            json.WriteNumber("minimum", parameter.Minimum);
            json.WriteNumber("maximum", parameter.Maximum);
        }
    }

    // The number in a text such as "-3", "-3 dB", "1,52" or "48k", and in the ratio "10:1".
    private static double? Bare(string text, Unit unit)
    {
        var figure = text.Trim().Replace('\u2212', '-');
        if (unit == Unit.None && figure.Split(':', StringSplitOptions.TrimEntries) is [var many, "1"])
        {
            figure = many;
        }

        if (unit.Symbol().Length > 0 && figure.EndsWith(unit.Symbol(), StringComparison.OrdinalIgnoreCase))
        {
            figure = figure[..^unit.Symbol().Length].TrimEnd();
        }

        var isThousands = unit == Unit.Hertz && figure.EndsWith('k');
        figure = WithPoint(isThousands ? figure[..^1].TrimEnd() : figure, unit);
        return double.TryParse(figure, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number)
            ? number * (isThousands ? 1000 : 1)
            : null;
    }

    // A comma stands for the point. In front of three digits of hertz it parts thousands.
    private static string WithPoint(string figure, Unit unit) => figure.Split(',') switch
    {
        [var before, { Length: 3 } after] when unit == Unit.Hertz && !before.StartsWith('0') && after.All(char.IsAsciiDigit) => before + after,
        [var before, var after] when !figure.Contains('.', StringComparison.Ordinal) => $"{before}.{after}",
        _ => figure,
    };

    private static double Likely(NumberParameter number) => Math.Clamp(number.Unit == Unit.Hertz ? 1000 : number.Unit is Unit.Decibels or Unit.DecibelsTruePeak ? 3 : 1, number.Minimum, number.Maximum);
}
