namespace DrumPrint.Page.Tests;

/// <summary>Tests that share one browser run one after the other.</summary>
[CollectionDefinition(Browser.Collection)]
public sealed class BrowserGroup : ICollectionFixture<Browser>;
