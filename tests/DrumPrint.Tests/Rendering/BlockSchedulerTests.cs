using DrumPrint.Rendering;

namespace DrumPrint.Tests.Rendering;

public class BlockSchedulerTests
{
    private const int Blocks = 3000;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(7)]
    public void No_node_reads_a_block_that_was_not_made_or_was_made_over(int threads)
    {
        // Two chains in shared memory, one read by two others, and a sum of everything.
        var a = Make();
        var b = Make(a);
        var c = Make(b);
        var d = Make(a);
        var e = Make();
        var f = Make(e);
        var g = Make(f);
        var h = Make(g, c, d);
        Step[] nodes = [a, b, c, d, e, f, g, h];
        Node.Share(nodes);
        for (var n = 0; n < nodes.Length; n++)
        {
            nodes[n].Number = n;
            nodes[n].Prepare(16);
        }

        BlockScheduler.Run(nodes, Blocks, threads, progress: null, CancellationToken.None);

        Assert.All(nodes, n => Assert.Empty(n.Wrong));
        Assert.Equal([null, null, b, null, null, e, f, null], nodes.Select(n => n.Host));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public void Nodes_that_begin_later_than_their_inputs_read_the_same_blocks(int threads)
    {
        var a = Make();
        var b = Make(a);
        var c = Make(b);
        var d = Make(a);
        var e = Make(c, d);
        Step[] nodes = [a, b, c, d, e];
        Node.Share(nodes);
        for (var n = 0; n < nodes.Length; n++)
        {
            nodes[n].Number = n;
            nodes[n].FirstBlock = new[] { 7, 20, 40, 150, 150 }[n];
            nodes[n].Prepare(16);
        }

        BlockScheduler.Run(nodes, Blocks, threads, progress: null, CancellationToken.None);

        Assert.All(nodes, n => Assert.Empty(n.Wrong));
        Assert.All(nodes, n => Assert.Equal(Blocks - n.FirstBlock, n.Made));
        Assert.Equal(b, c.Host);
    }

    [Fact]
    public void A_node_that_fails_stops_the_run_on_every_thread()
    {
        using var failed = new ManualResetEventSlim();
        var fine = Make();
        var faulty = new FaultyNode(fine, failed) { Name = "faulty", Channels = 1 };
        Node[] others = [.. Enumerable.Range(0, 3).Select(n => new PatientNode(failed) { Name = $"other {n}", Channels = 1 })];
        Node[] nodes = [fine, faulty, .. others];
        foreach (var node in nodes)
        {
            node.Prepare(16);
        }

        var run = () => BlockScheduler.Run(nodes, Blocks, 4, progress: null, CancellationToken.None);

        Assert.Equal("Block 5.", Assert.Throws<InvalidOperationException>(run).Message);

        // Nothing holds the others back: each could have run to the end. A thread finishes the block in its hands and takes one more at most,
        // in the moment before the failure is taken down.
        Assert.All(others.Cast<PatientNode>(), n => Assert.InRange(n.Last, 0, PatientNode.Waits + 10));
    }

    // Works in its input's memory where that is its only input.
    private static Step Make(params Node[] inputs) =>
        new(inputs) { Name = "step", Channels = 1, Changes = inputs.Length == 1 ? inputs[0] : null };

    private sealed class FaultyNode(Node input, ManualResetEventSlim failed) : Node
    {
        public override IEnumerable<Node> Inputs => [input];

        public override void Process(long block)
        {
            if (block == 5)
            {
                failed.Set();
                throw new InvalidOperationException("Block 5.");
            }
        }
    }

    // Depends on no other node; waits for the failure before it goes on.
    private sealed class PatientNode(ManualResetEventSlim failed) : Node
    {
        public const int Waits = 3;

        public long Last { get; private set; }

        public override IEnumerable<Node> Inputs => [];

        public override void Process(long block)
        {
            Last = block;
            if (block >= Waits)
            {
                failed.Wait();
                Thread.Sleep(1);
            }
        }
    }
}
