namespace DrumPrint.Dsp.Parameters;

/// <summary>One kind of item in a <see cref="ListParameter"/>. A class of its own for each kind names its parameters, so that code reaches
/// them without their keys.</summary>
public class ItemKind(string key, string summary, IReadOnlyList<Parameter> parameters)
{
    public string Key { get; } = key;

    public string Summary { get; } = summary;

    public IReadOnlyList<Parameter> Parameters { get; } = parameters;

    /// <summary>An item of this kind.</summary>
    /// <exception cref="SettingsException">A value is missing, unknown, of the wrong kind or out of range.</exception>
    public Item With(params IEnumerable<(Parameter Parameter, object Value)> values) => new(this, Settings.Of(Key, Parameters, values));
}

/// <summary>One item of a list.</summary>
public sealed record Item(ItemKind Kind, Settings Settings);
