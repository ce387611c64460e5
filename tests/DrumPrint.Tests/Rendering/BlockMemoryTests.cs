using DrumPrint.Rendering;

namespace DrumPrint.Tests.Rendering;

public class BlockMemoryTests
{
    private const int Blocks = 40;

    [Fact]
    public void What_a_thread_gave_back_last_it_gets_first()
    {
        var memory = new BlockMemory(2);
        var (first, second) = (memory.Lend(0, 16), memory.Lend(0, 16));
        memory.TakeBack(0, first);
        memory.TakeBack(0, second);

        Assert.Same(second, memory.Lend(0, 16));
        Assert.Same(first, memory.Lend(0, 16));
    }

    [Fact]
    public void Memory_another_thread_gave_back_is_used_before_more_is_made()
    {
        var memory = new BlockMemory(2);
        var lent = memory.Lend(0, 16);
        memory.TakeBack(1, lent);

        Assert.Same(lent, memory.Lend(0, 16));
        Assert.NotSame(lent, memory.Lend(0, 16));
    }

    [Fact]
    public void Each_block_is_given_up_once_and_only_after_everybody_has_read_it()
    {
        // A chain in shared memory (b works in a's, c in theirs), a second reader of the end, and a node nobody reads.
        var a = Make([], null);
        var b = Make([a], a);
        var c = Make([b], b);
        var d = Make([c], null);
        var e = Make([c], null);
        var f = Make([d, e], null);
        Step[] nodes = [a, b, c, d, e, f];
        Node.Share(nodes);
        var finished = nodes.ToDictionary(n => (Node)n, _ => 0L);
        var givenUp = nodes.ToDictionary(n => (Node)n, _ => 0L);
        var readers = new Dictionary<Node, Node[]> { [a] = [b, c, d, e], [b] = [c, d, e], [c] = [d, e], [d] = [f], [e] = [f], [f] = [f] };
        var queue = new BlockQueue(nodes, Blocks, (node, block) =>
        {
            Assert.Equal(givenUp[node]++, block);
            Assert.All(readers[node], r => Assert.True(finished[r] > block));
        });

        while (queue.TryTake(out var slot))
        {
            finished[slot.Node]++;
            queue.Finish(slot);
        }

        Assert.All(givenUp.Values, blocks => Assert.Equal(Blocks, blocks));
    }

    private static Step Make(Node[] inputs, Node? changes) => new(inputs) { Name = "step", Channels = 1, Changes = changes };
}
