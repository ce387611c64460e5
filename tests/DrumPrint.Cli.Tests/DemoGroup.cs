namespace DrumPrint.Cli.Tests;

/// <summary>The tests that share one demo session.</summary>
[CollectionDefinition(Name)]
public sealed class DemoGroup : ICollectionFixture<DemoFolder>
{
    public const string Name = "demo";
}
