namespace DrumPrint.Dsp.Parameters;

/// <summary>One word out of a list.</summary>
public sealed class ChoiceParameter(string key, IReadOnlyList<Choice> choices, string @default, string help) : Parameter(key, help)
{
    public IReadOnlyList<Choice> Choices { get; } = choices;

    public string Default { get; } = @default;

    public override object? Unset => Default;

    public override string Takes => $"one of {Words}";

    /// <summary>The word as people write it, with spaces.</summary>
    public override object? Said(object? value) => (value as string)?.Replace('_', ' ');

    private string Words => string.Join(", ", Choices.Select(c => c.Word));

    /// <summary>This parameter with a word, for <see cref="ProcessorDefinition.With"/> and its like.</summary>
    public (Parameter Parameter, object Value) To(string word) => (this, word);

    public override string? Problem(object value) => value switch
    {
        string word when Choices.Any(c => c.Word == word) => null,
        string word => $"'{word}' is not a choice for '{Key}'; it takes {Words}.",
        _ => WrongKind,
    };
}

/// <summary>A word of a <see cref="ChoiceParameter"/> and what it means.</summary>
public sealed record Choice(string Word, string Help);
