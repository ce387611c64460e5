using System.Globalization;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>The words for what a key takes and for what stands there instead.</summary>
internal static class Wording
{
    /// <summary>What a parameter takes, in words.</summary>
    public static string Takes(Parameter parameter) => parameter switch
    {
        TextParameter text => text.Kind switch
        {
            TextKind.FileNamePart => $"text in quotes with {FileNames.Rule}",
            TextKind.Path => "the path of a file, in quotes",
            TextKind.Source => "the name of a track or bus, in quotes",
            TextKind.Bus => "the name of a bus, in quotes",
            TextKind.Metre => "a metre in quotes, such as \"4/4\"",
            TextKind.Sha256 => "a SHA-256 in quotes, 64 digits 0 to 9 and a to f",
            _ => "text in quotes",
        },
        NumberParameter { Minimum: var only, Maximum: var most } when only == most => Show.Number(only),
        ImpulseParameter => "the name of an impulse, in quotes",
        ShapeParameter group => Takes(group.Shape),
        NamedShapesParameter => "a group in { } with one entry for each name",
        StagesParameter => "a list of processors in [ ]",
        ShapesParameter => "a list in [ ]",
        TextsParameter => "a list of texts in [ ]",
        ListParameter list => $"a list in [ ] of {Show.List([.. list.Kinds.Select(k => k.Key)])}",
        ChoiceParameter choice => $"one of {string.Join(", ", choice.Choices.Select(c => Quoted(c.Word)))}",
        _ => parameter.Takes,
    };

    /// <summary>What stands for a shape, in words.</summary>
    public static string Takes(Shape shape) => shape switch
    {
        { Shorthand: { } key } => $"{Takes(key)}, or a group in {{ }}",
        { CanBeSwitched: true } => "a group in { }, true or false",
        _ => $"a group in {{ }}{Needs(shape)}",
    };

    /// <summary>A key that must be there and is not.</summary>
    public static string Missing(Parameter parameter, Shape shape) => parameter switch
    {
        NamedShapesParameter { WhenEmpty: { } advice } => $"'{parameter.Key}' is missing: {advice}",
        ShapesParameter { WhenEmpty: { } advice } => $"'{parameter.Key}' is missing: {advice}",
        _ => $"'{parameter.Key}' is missing; {shape.Name} needs {Takes(parameter)}.",
    };

    /// <summary>What a parameter does; for a choice, what each word means too.</summary>
    public static string Help(Parameter parameter) => parameter is ChoiceParameter choice
        ? $"{choice.Help} {string.Join("; ", choice.Choices.Select(c => $"{c.Word}: {c.Help.TrimEnd('.')}"))}."
        : parameter.Help;

    /// <summary>A value of the wrong kind.</summary>
    /// <param name="subject">The key in quotes, or "this" in a list.</param>
    /// <param name="node">What stands there.</param>
    /// <param name="takes">What should.</param>
    public static string WrongKind(string subject, TreeNode node, string takes) => $"{subject} is {NodeWords.Kind(node)}; it takes {takes}.";

    /// <summary>A sentence that helps with a value of the wrong kind; empty when there is nothing to say.</summary>
    public static string Hint(TreeNode node, Parameter parameter) => (node, parameter) switch
    {
        (EmptyNode, { IsRequired: false }) => " Leave the key out instead.",
        (TextNode { Text: var text }, NumberParameter { Unit: var unit }) when Bare(text, unit) is { } number => $" Write the bare number: {Show.Number(number)}.",
        _ => "",
    };

    /// <summary>A closing sentence that offers a word; empty without one.</summary>
    public static string DidYouMean(string? word) => word is null ? "" : $" Did you mean '{Show.Name(word)}'?";

    /// <summary>Some names in quotes, not more than a line or two.</summary>
    public static string Names(IReadOnlyList<string> names) => Show.Some([.. names.Select(n => $"'{Show.Name(n)}'")]);

    // The number in a text such as "-3" or "-3 dB", and in the ratio "10:1".
    private static double? Bare(string text, Unit unit)
    {
        var figure = text.Trim();
        if (unit == Unit.None && figure.Split(':', StringSplitOptions.TrimEntries) is [var many, "1"])
        {
            figure = many;
        }

        if (unit.Symbol().Length > 0 && figure.EndsWith(unit.Symbol(), StringComparison.OrdinalIgnoreCase))
        {
            figure = figure[..^unit.Symbol().Length].TrimEnd();
        }

        return double.TryParse(figure, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? number : null;
    }

    private static string Needs(Shape shape)
    {
        var required = shape.Keys.Where(k => k.IsRequired).Select(k => k.Key).ToList();
        return required.Count > 0 ? $" with at least {Show.List(required)}" : "";
    }

    // A word that is a number is written bare.
    private static string Quoted(string word) => word.All(char.IsAsciiDigit) ? word : $"\"{word}\"";
}
