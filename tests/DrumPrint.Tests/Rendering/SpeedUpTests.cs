using DrumPrint.Rendering;

namespace DrumPrint.Tests.Rendering;

public class SpeedUpTests
{
    // The song's start and end leave cores idle for a few of its blocks.
    private const double EndsOfTheSong = 0.05;

    [Fact]
    public void One_step_runs_no_faster_on_more_cores()
    {
        var node = Step("a", 3);

        Assert.Equal(1, SpeedUp.On([node], 8));
    }

    [Fact]
    public void A_print_that_renders_nothing_runs_no_faster_on_more_cores() => Assert.Equal(1, SpeedUp.On([], 8));

    [Fact]
    public void Steps_that_need_nothing_of_each_other_share_the_cores()
    {
        Node[] nodes = [Step("a", 3), Step("b", 3), Step("c", 3), Step("d", 3)];

        Assert.Equal(1, SpeedUp.On(nodes, 1));
        Assert.Equal(2, SpeedUp.On(nodes, 2));
        Assert.Equal(4, SpeedUp.On(nodes, 16));
    }

    [Fact]
    public void A_chain_of_steps_works_on_several_blocks_at_a_time()
    {
        var first = Step("first", 2);
        var second = Step("second", 4, first);
        var third = Step("third", 2, second);

        var speedUp = SpeedUp.On([first, second, third], 3);

        // The longest step never waits, and it is half of the work.
        Assert.Equal(2, speedUp, EndsOfTheSong);
    }

    [Fact]
    public void A_chain_in_one_memory_is_counted_like_the_render_runs_it()
    {
        var first = Step("first", 1);
        var second = new Step([first]) { Name = "second", Channels = 1, BusyTicks = 1, Changes = first };
        var third = new Step([second]) { Name = "third", Channels = 1, BusyTicks = 1, Changes = second };
        Node[] nodes = [first, second, third];
        Node.Share(nodes);

        var speedUp = SpeedUp.On(nodes, 3);

        Assert.Same(second, third.Host);
        Assert.Equal(3, speedUp, 3 * EndsOfTheSong);
    }

    private static Step Step(string name, long ticks, params Node[] inputs) => new(inputs) { Name = name, Channels = 1, BusyTicks = ticks };
}
