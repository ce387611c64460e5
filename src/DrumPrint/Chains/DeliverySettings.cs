namespace DrumPrint.Chains;

/// <summary>What the chain says of its deliveries; no sound and no print depends on it.</summary>
public sealed record DeliverySettings
{
    /// <summary>Nothing said.</summary>
    public static DeliverySettings None { get; } = new();

    /// <summary>How delivered sound files are named, such as <c>{number}_{name}_{code}_v{version}</c>; null for the names of the prints.</summary>
    public string? Names { get; init; }

    /// <summary>What was asked for, in file order.</summary>
    public IReadOnlyList<Wish> Wishes { get; init; } = [];
}
