namespace DrumPrint.Tests.Demo;

/// <summary>Tests that share one written session.</summary>
[CollectionDefinition(Name)]
public sealed class DemoGroup : ICollectionFixture<DemoFixture>
{
    public const string Name = "demo session";
}
