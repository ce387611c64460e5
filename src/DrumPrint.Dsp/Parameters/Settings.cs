namespace DrumPrint.Dsp.Parameters;

/// <summary>Checked, immutable values of a processor's parameters, defaults filled in.</summary>
public sealed class Settings
{
    private readonly Dictionary<Parameter, object> _values;

    private Settings(Dictionary<Parameter, object> values) => _values = values;

    /// <summary>Value of a number that has a default or is required.</summary>
    public double this[NumberParameter parameter] => (double)_values[parameter];

    public string this[ChoiceParameter parameter] => (string)_values[parameter];

    public bool this[ToggleParameter parameter] => (bool)_values[parameter];

    /// <summary>Name of the impulse.</summary>
    public string this[ImpulseParameter parameter] => (string)_values[parameter];

    public IReadOnlyList<Item> this[ListParameter parameter] => (IReadOnlyList<Item>)_values[parameter];

    /// <summary>Value of a number that may be off; null when it is.</summary>
    public double? Find(NumberParameter parameter) => _values.TryGetValue(parameter, out var value) ? (double)value : null;

    /// <summary>The raw value, or null when the parameter is off: for writing settings out again.</summary>
    public object? Raw(Parameter parameter) => _values.GetValueOrDefault(parameter);

    /// <summary>Fills in defaults and checks every value against its declaration.</summary>
    /// <param name="parameters">The declarations.</param>
    /// <param name="values">Given values: double, string, bool or a list of <see cref="Item"/>.</param>
    /// <exception cref="SettingsException">A value is missing, unknown, of the wrong kind or out of range.</exception>
    public static Settings Of(IReadOnlyList<Parameter> parameters, params IEnumerable<(Parameter Parameter, object Value)> values)
    {
        ArgumentNullException.ThrowIfNull(parameters);
        ArgumentNullException.ThrowIfNull(values);
        var all = new Dictionary<Parameter, object>();
        foreach (var parameter in parameters)
        {
            object? @default = parameter switch
            {
                NumberParameter number => number.Default,
                ChoiceParameter choice => choice.Default,
                ToggleParameter toggle => toggle.Default,
                _ => null,
            };
            if (@default is not null)
            {
                all[parameter] = @default;
            }
        }

        foreach (var (parameter, value) in values)
        {
            if (!parameters.Contains(parameter))
            {
                throw new SettingsException(parameter, $"'{parameter.Key}' does not belong here.");
            }

            all[parameter] = ParameterCheck.Problem(parameter, value) is { } problem ? throw new SettingsException(parameter, problem) : value;
        }

        var missing = parameters.FirstOrDefault(p => p.IsRequired && !all.ContainsKey(p));
        return missing is null ? new Settings(all) : throw new SettingsException(missing, $"'{missing.Key}' is missing.");
    }
}
