using System.Text.Json;
using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Reading;

/// <summary>The form of every kind of parameter.</summary>
internal static class ParameterForms
{
    // The settings that say the most stand first; all of them would make a line nobody reads.
    private const int MostInExample = 4;

    private static readonly Dictionary<Type, ParameterForm> All = new()
    {
        [typeof(NumberParameter)] = new NumberForm(),
        [typeof(ChoiceParameter)] = new ChoiceForm(),
        [typeof(ToggleParameter)] = new ToggleForm(),
        [typeof(ImpulseParameter)] = new ImpulseForm(),
        [typeof(ListParameter)] = new ListForm(),
        [typeof(TextParameter)] = new TextForm(),
        [typeof(TextsParameter)] = new TextsForm(),
        [typeof(ChannelParameter)] = new ChannelForm(),
        [typeof(PlaceParameter)] = new PlaceForm(),
        [typeof(ShapeParameter)] = new ShapeForm(),
        [typeof(ShapesParameter)] = new ShapesForm(),
        [typeof(NamedShapesParameter)] = new NamedShapesForm(),
        [typeof(StagesParameter)] = new StagesForm(),
    };

    /// <summary>The kinds there are.</summary>
    public static IReadOnlyCollection<Type> Kinds => All.Keys;

    /// <summary>The form of a parameter's kind.</summary>
    public static ParameterForm Of(Parameter parameter) => All[parameter.GetType()];

    /// <summary>Writes settings as keys and values; what is off is left out, and what came later where it is as it always was.</summary>
    public static void Write(Utf8JsonWriter json, IReadOnlyList<Parameter> parameters, Settings settings)
    {
        foreach (var parameter in parameters)
        {
            if (settings.Raw(parameter) is { } value && !(parameter.IsLeftOutAtDefault && value.Equals(parameter.Unset)))
            {
                Of(parameter).Write(json, parameter, value);
            }
        }
    }

    /// <summary>One line of JSON that a chain takes: what must be given, and the settings that matter most at their defaults.</summary>
    public static string Example(string key, IReadOnlyList<Parameter> parameters)
    {
        var chosen = parameters.Where(p => p.IsInExample).ToList();
        var shown = parameters.Where(p => p.IsRequired).Union(chosen.Count > 0 ? chosen : parameters.Where(p => Of(p).Example(p) is not null).Take(MostInExample));
        string[] settings = [.. parameters.Where(shown.Contains).Select(p => $"\"{p.Key}\": {Of(p).Example(p)}")];
        return settings.Length == 0 ? $"{{ \"{key}\": {{ }} }}" : $"{{ \"{key}\": {{ {string.Join(", ", settings)} }} }}";
    }
}
