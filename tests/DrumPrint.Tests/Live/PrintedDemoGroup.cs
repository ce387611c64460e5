namespace DrumPrint.Tests.Live;

/// <summary>Tests that hold what is heard against one set of prints.</summary>
[CollectionDefinition(PrintedDemo.Group)]
public sealed class PrintedDemoGroup : ICollectionFixture<PrintedDemo>;
