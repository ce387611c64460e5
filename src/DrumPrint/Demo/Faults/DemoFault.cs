namespace DrumPrint.Demo.Faults;

/// <summary>One thing that is wrong on purpose.</summary>
/// <param name="Id">R and a number for what was recorded, P and a number for what was printed, as the list of faults calls it.</param>
/// <param name="Part">The file or the part of the chain that holds it, as people find it.</param>
/// <param name="What">What was done to it, in one sentence.</param>
/// <param name="Signs">What a check should find of it.</param>
public sealed record DemoFault(string Id, string Part, string What, params IReadOnlyList<FaultSign> Signs)
{
    /// <summary>Where it is heard, in seconds from the start of the files; none for what is true of the whole file.</summary>
    public IReadOnlyList<double> PlacesS { get; init; } = [];
}

/// <summary>A finding that a fault should lead to.</summary>
/// <param name="Rule">Name of the rule, such as <c>C1</c>.</param>
/// <param name="Track">What a check calls it: a track, a bus or a print; empty for the whole set.</param>
public readonly record struct FaultSign(string Rule, string Track);
