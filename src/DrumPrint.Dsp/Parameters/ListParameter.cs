namespace DrumPrint.Dsp.Parameters;

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

    /// <summary>No items, where none need be given.</summary>
    public override object? Unset => IsRequired ? null : Array.Empty<Item>();

    public override string Takes => $"a list of {string.Join(", ", Kinds.Select(k => k.Key))}";

    /// <summary>This parameter with its items, for <see cref="ProcessorDefinition.With"/> and its like.</summary>
    public (Parameter Parameter, object Value) To(params IReadOnlyList<Item> items) => (this, items);

    public override string? Problem(object value) => value is not IReadOnlyList<Item> items
        ? WrongKind
        : items.FirstOrDefault(i => !Kinds.Contains(i.Kind)) is { } strange ? $"'{strange.Kind.Key}' is not for '{Key}'; it takes {Takes}." : null;
}
