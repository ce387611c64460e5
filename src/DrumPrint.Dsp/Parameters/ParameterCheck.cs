using System.Globalization;

namespace DrumPrint.Dsp.Parameters;

/// <summary>Holds a value against its declaration and says in words what is wrong.</summary>
public static class ParameterCheck
{
    /// <summary>What is wrong with a value, what is allowed and the nearest valid choice; null when it is fine.</summary>
    public static string? Problem(Parameter parameter, object value) => (parameter, value) switch
    {
        (NumberParameter number, double x) => Problem(number, x),
        (ChoiceParameter choice, string word) => choice.Choices.Any(c => c.Word == word)
            ? null
            : $"'{word}' is not a choice for '{choice.Key}'; it takes {string.Join(", ", choice.Choices.Select(c => c.Word))}.",
        (ToggleParameter, bool) => null,
        (ImpulseParameter, string) => null,
        (ListParameter, IReadOnlyList<Item>) => null,
        _ => $"'{parameter.Key}' takes {Takes(parameter)}.",
    };

    /// <summary>What a parameter takes, in words: "a number from -80 to 0 dB".</summary>
    public static string Takes(Parameter parameter) => parameter switch
    {
        NumberParameter { Steps: { } steps } number => $"one of {string.Join(", ", steps.Select(Text))}{Symbol(number)}",
        NumberParameter number => $"a {(number.IsWhole ? "whole " : "")}number from {Text(number.Minimum)} to {Text(number.Maximum)}{Symbol(number)}",
        ChoiceParameter choice => $"one of {string.Join(", ", choice.Choices.Select(c => c.Word))}",
        ToggleParameter => "true or false",
        ImpulseParameter => "the name of an impulse",
        ListParameter list => $"a list of {string.Join(", ", list.Kinds.Select(k => k.Key))}",
        _ => "a value",
    };

    private static string? Problem(NumberParameter number, double x)
    {
        if (number.Steps is { } steps)
        {
            return steps.Contains(x)
                ? null
                : $"'{number.Key}' is {Text(x)}{Symbol(number)}; it takes {Takes(number)}. Nearest: {Text(steps.MinBy(s => Math.Abs(s - x)))}.";
        }

        var nearest = x < number.Minimum ? number.Minimum : x > number.Maximum ? number.Maximum : number.IsWhole ? Math.Round(x) : x;
        return nearest == x
            ? null
            : $"'{number.Key}' is {Text(x)}{Symbol(number)}; it takes {Takes(number)}. Nearest: {Text(nearest)}.";
    }

    // A plain hyphen for minus: what the message offers can be typed back into the file.
    private static string Text(double x) => x.ToString("0.######", CultureInfo.InvariantCulture);

    private static string Symbol(NumberParameter number) => number.Unit == Unit.None ? "" : " " + number.Unit.Symbol();
}
