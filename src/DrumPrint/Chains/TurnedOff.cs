namespace DrumPrint.Chains;

/// <summary>Something that a chain holds and that nothing is heard of, since it is off.</summary>
/// <typeparam name="T">A feed or a processor.</typeparam>
/// <param name="What">It.</param>
/// <param name="After">How many that are heard stand before it.</param>
public sealed record TurnedOff<T>(T What, int After);
