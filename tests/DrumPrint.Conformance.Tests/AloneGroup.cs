namespace DrumPrint.Conformance.Tests;

/// <summary>Tests beside which nothing else may run: they take the time, or need what all others measured.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class AloneGroup
{
    public const string Name = "alone";
}
