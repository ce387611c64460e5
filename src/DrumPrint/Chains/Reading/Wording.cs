using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>The words for what a key takes and for what stands there instead.</summary>
internal static class Wording
{
    /// <summary>What a parameter takes, in words.</summary>
    public static string Takes(Parameter parameter) => ParameterForms.Of(parameter).Takes(parameter);

    /// <summary>What stands for a shape, in words.</summary>
    public static string Takes(Shape shape) => shape switch
    {
        { Shorthand: { } key } => $"{Takes(key)}, or a group in {{ }}",
        { CanBeSwitched: true } => "a group in { }, true or false",
        _ => $"a group in {{ }}{Needs(shape)}",
    };

    /// <summary>A key that must be there and is not.</summary>
    public static string Missing(Parameter parameter, Shape shape) => ParameterForms.Of(parameter).WhenEmpty(parameter) is { } advice
        ? $"'{parameter.Key}' is missing: {advice}"
        : $"'{parameter.Key}' is missing; {shape.Name} needs {Takes(parameter)}.";

    /// <summary>What a parameter does; for a choice, what each word means too.</summary>
    public static string Help(Parameter parameter) => ParameterForms.Of(parameter).Help(parameter);

    /// <summary>A key or name that stands there a second time.</summary>
    public static string Twice(string name, Position first) =>
        FormattableString.Invariant($"'{Show.Name(name)}' is given twice; the first is on line {first.Line}.");

    /// <summary>A value of the wrong kind.</summary>
    /// <param name="subject">The key in quotes, or "this" in a list.</param>
    /// <param name="node">What stands there.</param>
    /// <param name="takes">What should.</param>
    public static string WrongKind(string subject, TreeNode node, string takes) => $"{subject} is {NodeWords.Kind(node)}; it takes {takes}.";

    /// <summary>A sentence that helps with a value of the wrong kind; empty when there is nothing to say.</summary>
    public static string Hint(TreeNode node, Parameter parameter) =>
        node is EmptyNode && !parameter.IsRequired ? " Leave the key out instead." : ParameterForms.Of(parameter).Hint(parameter, node);

    /// <summary>A closing sentence that offers a word; empty without one.</summary>
    public static string DidYouMean(string? word) => word is null ? "" : $" Did you mean '{Show.Name(word)}'?";

    /// <summary>Some names in quotes, not more than a line or two.</summary>
    public static string Names(IReadOnlyList<string> names) => Show.Some([.. names.Select(n => $"'{Show.Name(n)}'")]);

    private static string Needs(Shape shape)
    {
        var required = shape.Keys.Where(k => k.IsRequired).Select(k => k.Key).ToList();
        return required.Count > 0 ? $" with at least {Show.List(required)}" : "";
    }
}
