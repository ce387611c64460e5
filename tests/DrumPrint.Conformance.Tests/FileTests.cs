namespace DrumPrint.Conformance.Tests;

/// <summary>What is measured of files and written into them.</summary>
public sealed class FileTests : ConformanceTests
{
    public static TheoryData<string> Checks => Of(typeof(FileTests));

    [Theory]
    [MemberData(nameof(Checks))]
    public void Every_bar_is_met_or_marked_as_missed_with_the_reason(string name) => MeetsItsBarOrIsMarked(name);
}
