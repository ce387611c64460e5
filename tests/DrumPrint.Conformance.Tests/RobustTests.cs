namespace DrumPrint.Conformance.Tests;

/// <summary>Signals that trip filters up.</summary>
public sealed class RobustTests : ConformanceTests
{
    public static TheoryData<string> Checks => Of(typeof(RobustTests));

    [Theory]
    [MemberData(nameof(Checks))]
    public void Every_bar_is_met_or_marked_as_missed_with_the_reason(string name) => MeetsItsBarOrIsMarked(name);
}
