using DrumPrint.Rendering;

namespace DrumPrint.Tests.Rendering;

public class LongestChainTests
{
    [Fact]
    public void The_longest_chain_is_that_of_the_most_time_not_of_the_most_steps()
    {
        var a = new Step([]) { Name = "a", Channels = 1, BusyTicks = 1 };
        var b = new Step([a]) { Name = "b", Channels = 1, BusyTicks = 1 };
        var c = new Step([b]) { Name = "c", Channels = 1, BusyTicks = 1 };
        var slow = new Step([]) { Name = "slow", Channels = 1, BusyTicks = 5 };
        var sum = new Step([c, slow]) { Name = "sum", Channels = 1, BusyTicks = 1 };
        var aside = new Step([a]) { Name = "aside", Channels = 1, BusyTicks = 4 };

        Assert.Equal([slow, sum], LongestChain.Of([a, b, c, slow, sum, aside]));
    }
}
