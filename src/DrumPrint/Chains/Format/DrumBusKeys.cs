namespace DrumPrint.Chains.Format;

/// <summary>The keys of <c>drum_bus</c>.</summary>
internal static class DrumBusKeys
{
    public static readonly StagesParameter Through = new("through", "Processors, in order.");

    public static readonly TextParameter Notes = new("notes", TextKind.Title, "What the mixer should know of the drum bus; stands on the delivery sheet and changes no sound.");

    public static readonly Shape Shape = new("the drum bus", "Processing described for the mixer and heard on the second rough only.", [Through, Notes]) { Refusals = MisplacedStages.Refusals };
}
