namespace DrumPrint.Chains.Format;

/// <summary>The keys of <c>delivery</c>.</summary>
internal static class DeliveryKeys
{
    public static readonly TextParameter Names = new("names", TextKind.NamePattern, "How delivered sound files are named; the names of the prints when left out.");

    public static readonly ShapesParameter Wishes = new("wishes", WishKeys.Shape, "What the mixer asked for, each with the version that answers it.");

    public static readonly Shape Shape = new("the delivery", "What is said of deliveries; no sound and no print depends on it.", [Names, Wishes]);
}
