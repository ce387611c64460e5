using DrumPrint.Store;

namespace DrumPrint.Tests.Store;

public sealed class PrintMemoTests
{
    // What was looked at up to a frame before both renders end is the same whichever of them ran; what reached an end is not.
    [Theory]
    [InlineData(1000, 1000, 1000, true)]
    [InlineData(1000, 1000, 999, true)]
    [InlineData(1000, 2000, 999, true)]
    [InlineData(1000, 2000, 1000, false)]
    [InlineData(2000, 1000, 999, true)]
    [InlineData(2000, 1000, 1000, false)]
    [InlineData(2000, 1000, 1500, false)]
    public void Figures_hold_for_a_run_that_would_have_looked_at_as_much(long cap, long otherCap, long tailTo, bool holds)
    {
        var memo = new PrintMemo("01 A", 1, 0.5, 800, tailTo, cap, 0, null);

        Assert.Equal(holds, memo.HoldsFor(otherCap));
    }
}
