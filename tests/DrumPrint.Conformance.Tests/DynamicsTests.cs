namespace DrumPrint.Conformance.Tests;

/// <summary>What follows the level.</summary>
public sealed class DynamicsTests : ConformanceTests
{
    public static TheoryData<string> Checks => Of(typeof(DynamicsTests));

    [Theory]
    [MemberData(nameof(Checks))]
    public void Every_bar_is_met_or_marked_as_missed_with_the_reason(string name) => MeetsItsBarOrIsMarked(name);
}
