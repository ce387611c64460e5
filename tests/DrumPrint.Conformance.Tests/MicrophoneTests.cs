namespace DrumPrint.Conformance.Tests;

/// <summary>Delay and polarity of microphones.</summary>
public sealed class MicrophoneTests : ConformanceTests
{
    public static TheoryData<string> Checks => Of(typeof(MicrophoneTests));

    [Theory]
    [MemberData(nameof(Checks))]
    public void Every_bar_is_met_or_marked_as_missed_with_the_reason(string name) => MeetsItsBarOrIsMarked(name);
}
