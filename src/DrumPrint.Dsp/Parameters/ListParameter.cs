namespace DrumPrint.Dsp.Parameters;

/// <summary>A list whose items each name their kind and give its parameters, such as the bands of an equaliser. It must be given, unless its
/// declaration says otherwise; then it is empty when it is not.</summary>
public sealed class ListParameter : Parameter
{
    private static readonly IReadOnlyList<Item> None = [];

    public ListParameter(string key, IReadOnlyList<ItemKind> kinds, string help)
        : base(key, help)
    {
        Kinds = kinds;
        IsRequired = true;
    }

    public IReadOnlyList<ItemKind> Kinds { get; }

    public override object? Unset => IsRequired ? null : None;

    public override string Takes => $"a list of {string.Join(", ", Kinds.Select(k => k.Key))}";

    /// <summary>This parameter with its items, for <see cref="ProcessorDefinition.With"/> and its like.</summary>
    public (Parameter Parameter, object Value) To(params IReadOnlyList<Item> items) => (this, items);

    internal override object Plain(object value) => !IsRequired && value is IReadOnlyList<Item> { Count: 0 } ? None : value;

    public override string? Problem(object value) => value is not IReadOnlyList<Item> items
        ? WrongKind
        : items.FirstOrDefault(i => !Kinds.Contains(i.Kind)) is { } strange ? $"'{strange.Kind.Key}' is not for '{Key}'; it takes {Takes}." : null;
}
