using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Describing;

/// <summary>A processor as it stands in a chain, to be copied and changed.</summary>
internal static class ProcessorExample
{
    // The settings that say the most stand first; all of them would make a line nobody reads.
    private const int MostSettings = 4;

    /// <summary>One line of JSON that a chain takes: what must be given, and the first settings at their defaults.</summary>
    public static string Of(ProcessorDefinition definition) => Entry(definition.Key, definition.Parameters);

    private static string Entry(string key, IReadOnlyList<Parameter> parameters)
    {
        var shown = parameters.Where(p => p.IsRequired).Union(parameters.Where(p => Value(p) is not null).Take(MostSettings));
        string[] settings = [.. parameters.Where(shown.Contains).Select(p => $"\"{p.Key}\": {Value(p)}")];
        return settings.Length == 0 ? $"{{ \"{key}\": {{ }} }}" : $"{{ \"{key}\": {{ {string.Join(", ", settings)} }} }}";
    }

    // Null for what is off.
    private static string? Value(Parameter parameter) => parameter switch
    {
        NumberParameter { Default: { } value } => Show.Number(value),
        NumberParameter { IsRequired: true } number => Show.Number(Likely(number)),
        ChoiceParameter choice => $"\"{choice.Default}\"",
        ToggleParameter toggle => toggle.Default ? "true" : "false",
        ImpulseParameter => "\"my hall\"",
        ListParameter list => $"[ {string.Join(", ", list.Kinds.Select(k => Entry(k.Key, k.Parameters)))} ]",
        _ => null,
    };

    private static double Likely(NumberParameter number) => Math.Clamp(number.Unit == Unit.Hertz ? 1000 : number.Unit == Unit.Decibels ? 3 : 1, number.Minimum, number.Maximum);
}
