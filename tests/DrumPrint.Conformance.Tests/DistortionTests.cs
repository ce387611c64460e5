namespace DrumPrint.Conformance.Tests;

/// <summary>What bends the curve.</summary>
public sealed class DistortionTests : ConformanceTests
{
    public static TheoryData<string> Checks => Of(typeof(DistortionTests));

    [Theory]
    [MemberData(nameof(Checks))]
    public void Every_bar_is_met_or_marked_as_missed_with_the_reason(string name) => MeetsItsBarOrIsMarked(name);
}
