namespace DrumPrint.Chains;

/// <summary>Tells what of a chain is off.</summary>
internal static class OffWords
{
    /// <summary>Such as <c>tape of impact</c>, <c>front into impact</c>, <c>compress of the drum bus</c>; nothing where all is heard.</summary>
    public static IReadOnlyList<string> Of(Chain chain) =>
    [
        .. chain.Buses.SelectMany(b => b.OffFeeds.Select(f => $"{f.What.Source} into {b.Name}").Concat(b.OffStages.Select(s => $"{s.What.Definition.Key} of {b.Name}"))),
        .. chain.OffDrumBus.Select(s => $"{s.What.Definition.Key} of the drum bus"),
    ];
}
