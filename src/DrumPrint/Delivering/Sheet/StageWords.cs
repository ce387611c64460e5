using DrumPrint.Chains;
using DrumPrint.Diff;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Delivering.Sheet;

/// <summary>Says what a processor is set to, every value of it, so that any tools can be set alike.</summary>
internal static class StageWords
{
    /// <summary>Such as <c>compressor: threshold −16 dB, ratio 2, attack 25 ms</c>.</summary>
    public static string Of(Stage stage)
    {
        var key = stage.Key is { } name ? $", listens to {name}" : "";
        return $"{ChangeWords.Processor(stage.Definition.Key)}: {Values(stage.Definition.Parameters, stage.Settings)}{key}";
    }

    private static string Values(IReadOnlyList<Parameter> parameters, Settings settings) =>
        string.Join(", ", parameters.Select(p => Value(p, settings)).OfType<string>());

    // What is off is not there.
    private static string? Value(Parameter parameter, Settings settings) => settings.Raw(parameter) switch
    {
        null => null,
        double number when parameter is NumberParameter { Unit: var unit } => $"{ChangeWords.Label(parameter.Key, unit)} {ChangeWords.Number(number)}{(unit == Unit.None ? "" : " " + unit.Symbol())}",
        Sought { Found: { } found } sought => $"{ChangeWords.Label(parameter.Key, parameter.Unit)} {ChangeWords.Number(found)} {parameter.Unit.Symbol()} ({ChangeWords.Goal(sought)})",
        Sought sought => $"{ChangeWords.Label(parameter.Key, parameter.Unit)} {ChangeWords.Goal(sought)}",
        IReadOnlyList<Item> items => string.Join("; ", items.Select(i => $"{i.Kind.Key.Replace('_', ' ')} ({Values(i.Kind.Parameters, i.Settings)})")),
        bool isOn => $"{parameter.Key.Replace('_', ' ')} {ChangeWords.Toggle(isOn)}",
        string word when parameter is ChoiceParameter => $"{parameter.Key.Replace('_', ' ')} {word.Replace('_', ' ')}",
        var other => $"{parameter.Key.Replace('_', ' ')} {other}",
    };
}
