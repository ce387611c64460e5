using System.Globalization;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Reading;

/// <summary>The words for what a key takes and for what stands there instead.</summary>
internal static class Wording
{
    private const int LongestList = 12;

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
            _ => "text in quotes",
        },
        ImpulseParameter => "the name of an impulse, in quotes",
        ShapeParameter group => Takes(group.Shape),
        NamedShapesParameter => "a group in { } with one entry for each name",
        StagesParameter => "a list of processors in [ ]",
        ShapesParameter or ListParameter => "a list in [ ]",
        ChoiceParameter choice => $"one of {string.Join(", ", choice.Choices.Select(c => Quoted(c.Word)))}",
        _ => ParameterCheck.Takes(parameter),
    };

    /// <summary>What stands for a shape, in words.</summary>
    public static string Takes(Shape shape) => shape switch
    {
        { Shorthand: { } key } => $"{Takes(key)}, or a group in {{ }}",
        { CanBeSwitched: true } => "a group in { }, true or false",
        _ => "a group in { }",
    };

    /// <summary>A value of the wrong kind.</summary>
    /// <param name="subject">The key in quotes, or "this" in a list.</param>
    /// <param name="node">What stands there.</param>
    /// <param name="takes">What should.</param>
    public static string WrongKind(string subject, Node node, string takes) => $"{subject} is {Show.Kind(node)}; it takes {takes}.";

    /// <summary>Advice for a number in quotes, with or without its unit; empty when it is none.</summary>
    public static string BareNumber(Node node, Parameter parameter)
    {
        if (node is not TextNode { Text: var text } || parameter is not NumberParameter { Unit: var unit })
        {
            return "";
        }

        var figure = text.Trim();
        if (unit.Symbol().Length > 0 && figure.EndsWith(unit.Symbol(), StringComparison.OrdinalIgnoreCase))
        {
            figure = figure[..^unit.Symbol().Length].TrimEnd();
        }

        return double.TryParse(figure, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number)
            ? $" Write the bare number: {Show.Number(number)}."
            : "";
    }

    /// <summary>A closing sentence that offers a word; empty without one.</summary>
    public static string DidYouMean(string? word) => word is null ? "" : $" Did you mean '{Show.Name(word)}'?";

    /// <summary>Some names in quotes, not more than a line or two.</summary>
    public static string Names(IReadOnlyList<string> names) => names.Count <= LongestList
        ? Show.List([.. names.Select(n => $"'{Show.Name(n)}'")])
        : FormattableString.Invariant($"{string.Join(", ", names.Take(LongestList).Select(n => $"'{Show.Name(n)}'"))} and {names.Count - LongestList} more");

    // A word that is a number is written bare.
    private static string Quoted(string word) => word.All(char.IsAsciiDigit) ? word : $"\"{word}\"";
}
