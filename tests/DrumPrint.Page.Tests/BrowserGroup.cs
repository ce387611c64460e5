namespace DrumPrint.Page.Tests;

/// <summary>Tests of pages from the disk share a browser and run one after the other, beside those of the bench.</summary>
[CollectionDefinition(Browser.Pages)]
public sealed class PagesGroup : ICollectionFixture<Browser>;

/// <summary>Tests of the bench share a browser and run one after the other, beside those of pages from the disk.</summary>
[CollectionDefinition(Browser.Bench)]
public sealed class BenchGroup : ICollectionFixture<Browser>;
