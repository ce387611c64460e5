namespace DrumPrint.Dsp.Parameters;

/// <summary>
/// The one declaration of a parameter. Parsing, validation, schema, reference page and forms all come from it; the object
/// itself is the key under which <see cref="Settings"/> holds its value.
/// </summary>
/// <remarks>A plain class and not a record: two processors may declare the same thing and must stay apart.</remarks>
public abstract class Parameter(string key, string help)
{
    /// <summary>The word in the chain file: snake_case, the unit last.</summary>
    public string Key { get; } = key;

    /// <summary>One line that says what it does, ending in a full stop.</summary>
    public string Help { get; } = help;

    /// <summary>Other words of the trade for it, without the unit, to answer those who use one.</summary>
    public IReadOnlyList<string> AlsoCalled { get; init; } = [];

    /// <summary>Whether a chain must give it.</summary>
    public bool IsRequired { get; init; }
}

/// <summary>A number in a range. Without a default it is either required or off when not given.</summary>
public sealed class NumberParameter(string key, Unit unit, double minimum, double maximum, double? @default, string help) : Parameter(key, help)
{
    public Unit Unit { get; } = unit;

    public double Minimum { get; } = minimum;

    public double Maximum { get; } = maximum;

    /// <summary>Value when the chain gives none; null means off (or required).</summary>
    public double? Default { get; } = @default;

    /// <summary>What holds when the chain gives none, in words, where that is neither a number nor off.</summary>
    public string? LeftOut { get; init; }

    /// <summary>The only values allowed, in rising order; null when every number in the range is.</summary>
    public IReadOnlyList<double>? Steps { get; init; }

    /// <summary>Whether only whole numbers are allowed.</summary>
    public bool IsWhole { get; init; }
}

/// <summary>One word out of a list.</summary>
public sealed class ChoiceParameter(string key, IReadOnlyList<Choice> choices, string @default, string help) : Parameter(key, help)
{
    public IReadOnlyList<Choice> Choices { get; } = choices;

    public string Default { get; } = @default;
}

/// <summary>A word of a <see cref="ChoiceParameter"/> and what it means.</summary>
public sealed record Choice(string Word, string Help);

/// <summary>True or false.</summary>
public sealed class ToggleParameter(string key, bool @default, string help) : Parameter(key, help)
{
    public bool Default { get; } = @default;
}

/// <summary>The name of an impulse declared in the chain. Always required.</summary>
public sealed class ImpulseParameter : Parameter
{
    public ImpulseParameter(string key, string help)
        : base(key, help) => IsRequired = true;
}

/// <summary>A list whose items each name their kind and give its parameters, such as the bands of an equaliser.</summary>
public sealed class ListParameter : Parameter
{
    public ListParameter(string key, IReadOnlyList<ItemKind> kinds, string help)
        : base(key, help)
    {
        Kinds = kinds;
        IsRequired = true;
    }

    public IReadOnlyList<ItemKind> Kinds { get; }
}

/// <summary>One kind of item in a <see cref="ListParameter"/>.</summary>
public sealed class ItemKind(string key, string summary, IReadOnlyList<Parameter> parameters)
{
    public string Key { get; } = key;

    public string Summary { get; } = summary;

    public IReadOnlyList<Parameter> Parameters { get; } = parameters;
}

/// <summary>One item of a list as a chain gives it.</summary>
public sealed record Item(ItemKind Kind, Settings Settings);
