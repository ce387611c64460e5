namespace DrumPrint.Dsp.Parameters;

/// <summary>Checked, immutable values of a processor's parameters, defaults filled in.</summary>
public sealed class Settings
{
    private readonly Dictionary<Parameter, object> _values;
    private readonly IReadOnlyList<Parameter> _parameters;
    private readonly string? _owner;

    private Settings(string? owner, IReadOnlyList<Parameter> parameters, Dictionary<Parameter, object> values)
    {
        _owner = owner;
        _parameters = parameters;
        _values = values;
    }

    /// <summary>Value of a number that has a default or is required.</summary>
    /// <exception cref="SettingsException">It is set by a goal, and nobody has looked for it yet.</exception>
    public double this[NumberParameter parameter] => Number(parameter, Value(parameter));

    public string this[ChoiceParameter parameter] => (string)Value(parameter);

    public bool this[ToggleParameter parameter] => (bool)Value(parameter);

    /// <summary>Name of the impulse.</summary>
    public string this[ImpulseParameter parameter] => (string)Value(parameter);

    public IReadOnlyList<Item> this[ListParameter parameter] => (IReadOnlyList<Item>)Value(parameter);

    /// <summary>Value of a number that may be off; null when it is.</summary>
    /// <exception cref="SettingsException">It is set by a goal, and nobody has looked for it yet.</exception>
    public double? Find(NumberParameter parameter) => Raw(parameter) is { } value ? Number(parameter, value) : null;

    /// <summary>The numbers that are set by a goal, in the order of the declarations.</summary>
    public IEnumerable<(NumberParameter Parameter, Sought Value)> Wanted => _parameters.OfType<NumberParameter>().Where(p => Raw(p) is Sought).Select(p => (p, (Sought)Raw(p)!));

    /// <summary>These settings with one value in place of another.</summary>
    /// <exception cref="SettingsException">The value is none of these settings, of the wrong kind or out of range.</exception>
    public Settings With(Parameter parameter, object value)
    {
        ArgumentNullException.ThrowIfNull(parameter);
        return Of(_owner, _parameters, _values.Where(v => v.Key != parameter).Select(v => (v.Key, v.Value)).Append((parameter, value)));
    }

    /// <summary>The raw value, or null when the parameter is off: for writing settings out again. A number set by a goal is a <see cref="Parameters.Sought"/>.</summary>
    /// <exception cref="SettingsException">The parameter is none of these settings.</exception>
    public object? Raw(Parameter parameter) =>
        _values.TryGetValue(parameter, out var value) ? value : _parameters.Contains(parameter) ? null : throw Strange(_owner, _parameters, parameter);

    /// <summary>Fills in defaults and checks every value against its declaration.</summary>
    /// <param name="parameters">The declarations.</param>
    /// <param name="values">Given values: a number, string, bool or list of <see cref="Item"/>.</param>
    /// <exception cref="SettingsException">A value is missing, unknown, of the wrong kind or out of range.</exception>
    public static Settings Of(IReadOnlyList<Parameter> parameters, params IEnumerable<(Parameter Parameter, object Value)> values) => Of(null, parameters, values);

    /// <param name="owner">The processor or item they are for, to be named in messages.</param>
    /// <inheritdoc cref="Of(IReadOnlyList{Parameter}, IEnumerable{ValueTuple{Parameter, object}})"/>
    internal static Settings Of(string? owner, IReadOnlyList<Parameter> parameters, IEnumerable<(Parameter Parameter, object Value)> values)
    {
        ArgumentNullException.ThrowIfNull(parameters);
        ArgumentNullException.ThrowIfNull(values);
        var all = new Dictionary<Parameter, object>();
        foreach (var parameter in parameters)
        {
            if (parameter.Unset is { } unset)
            {
                all[parameter] = unset;
            }
        }

        foreach (var (parameter, given) in values)
        {
            if (!parameters.Contains(parameter))
            {
                throw Strange(owner, parameters, parameter);
            }

            var value = parameter.Plain(given);
            all[parameter] = parameter.Problem(value) is { } problem ? throw new SettingsException(parameter, problem) : value;
        }

        var missing = parameters.FirstOrDefault(p => p.IsRequired && !all.ContainsKey(p));
        return missing is null ? new Settings(owner, parameters, all) : throw new SettingsException(missing, $"'{missing.Key}' is missing.");
    }

    /// <summary>Refuses to be read as settings of something else.</summary>
    /// <param name="owner">What they should be for.</param>
    /// <param name="parameters">Its declarations.</param>
    internal void RequireFor(string owner, IReadOnlyList<Parameter> parameters)
    {
        if (!ReferenceEquals(parameters, _parameters) && parameters.FirstOrDefault(p => !_parameters.Contains(p)) is { } lacking)
        {
            throw new SettingsException(lacking, $"These are settings of {(_owner is null ? "something else" : $"'{_owner}'")} ({Keys(_parameters)}); '{owner}' needs its own ({Keys(parameters)}).");
        }
    }

    private static double Number(NumberParameter parameter, object value) => value is Sought sought
        ? sought.Found ?? throw new SettingsException(parameter, $"'{parameter.Key}' is set by '{sought.Goal.Key}', and its number is still to be found.")
        : (double)value;

    private object Value(Parameter parameter) =>
        Raw(parameter) ?? throw new SettingsException(parameter, $"'{parameter.Key}' is off, so it has no value.");

    private static SettingsException Strange(string? owner, IReadOnlyList<Parameter> parameters, Parameter parameter)
    {
        var here = owner is null ? "here" : $"to '{owner}'";
        return parameters.Any(p => p.Key == parameter.Key)
            ? new SettingsException(parameter, $"This '{parameter.Key}' is declared elsewhere and does not belong {here}, which declares its own.")
            : new SettingsException(parameter, $"'{parameter.Key}' does not belong {here}; it takes {Keys(parameters)}.");
    }

    private static string Keys(IReadOnlyList<Parameter> parameters) => string.Join(", ", parameters.Select(p => p.Key));
}
