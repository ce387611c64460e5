namespace DrumPrint.Conformance.Tests;

/// <summary>What hears single drums.</summary>
public sealed class DrumTests : ConformanceTests
{
    public static TheoryData<string> Checks => Of(typeof(DrumTests));

    [Theory]
    [MemberData(nameof(Checks))]
    public void Every_bar_is_met_or_marked_as_missed_with_the_reason(string name) => MeetsItsBarOrIsMarked(name);
}
