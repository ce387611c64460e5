namespace DrumPrint.Chains;

/// <summary>The recipe that a chain uses, and what stands there and not in the chain.</summary>
/// <param name="File">Its path, as the chain gives it.</param>
/// <param name="Path">Its path, for messages.</param>
/// <param name="Places">What is taken from it: <c>buses.kick</c>, <c>impulses.hall</c>, <c>prints.3</c>, <c>drum_bus</c>, <c>output</c>.</param>
public sealed record UsedRecipe(string File, string Path, IReadOnlySet<string> Places)
{
    /// <summary>Whether something stands there.</summary>
    public bool Holds(string place) => Places.Contains(place);
}
