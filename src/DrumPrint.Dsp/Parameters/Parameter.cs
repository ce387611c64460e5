namespace DrumPrint.Dsp.Parameters;

/// <summary>
/// The one declaration of a parameter. Parsing, validation, schema, reference page and forms all come from it. The object
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

    /// <summary>Whether the one line that shows how to write a processor has it. Where nobody says so, the first settings stand there.</summary>
    public bool IsInExample { get; init; }

    /// <summary>Whether it must be given.</summary>
    public bool IsRequired { get; init; }

    /// <summary>Whether the canonical text of a chain leaves it out at its default. So it is with what a processor was given later: the
    /// hashes of older tickets stay right.</summary>
    public bool IsLeftOutAtDefault { get; init; }

    /// <summary>The value when none is given; null for what is then off, and for what is required.</summary>
    public virtual object? Unset => null;

    /// <summary>The unit of its value; <see cref="Unit.None"/> for what is not a number.</summary>
    public virtual Unit Unit => Unit.None;

    /// <summary>A value as a sentence says it. A name stays as it was given.</summary>
    public virtual object? Said(object? value) => value;

    /// <summary>What it takes, in words: "a number from -80 to 0 dB".</summary>
    public virtual string Takes => "a value";

    /// <summary>What is wrong with a value, what is allowed and the nearest valid choice; null when it is fine.</summary>
    public virtual string? Problem(object value) => WrongKind;

    /// <summary>The value in the one form in which settings hold it: a whole number as a double.</summary>
    internal virtual object Plain(object value) => value;

    /// <summary>The sentence for a value of another kind.</summary>
    protected string WrongKind => $"'{Key}' takes {Takes}.";
}
