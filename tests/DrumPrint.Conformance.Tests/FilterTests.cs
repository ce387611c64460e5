namespace DrumPrint.Conformance.Tests;

/// <summary>What filters, delays and levels do.</summary>
public sealed class FilterTests : ConformanceTests
{
    public static TheoryData<string> Checks => Of(typeof(FilterTests));

    [Theory]
    [MemberData(nameof(Checks))]
    public void Every_bar_is_met_or_marked_as_missed_with_the_reason(string name) => MeetsItsBarOrIsMarked(name);
}
