namespace DrumPrint.Chains;

/// <summary>One channel of a recording of many, by number or by the name that the file gives it.</summary>
/// <param name="Number">From 1; 0 where it goes by its name.</param>
/// <param name="Name">As the file calls it; null where it goes by its number.</param>
public readonly record struct TrackChannel(int Number, string? Name)
{
    public override string ToString() => Name is null ? FormattableString.Invariant($"{Number}") : $"'{Name}'";
}
