using DrumPrint.Dsp;
using DrumPrint.Rendering;

namespace DrumPrint.Planning;

/// <summary>Makes two steps of a processor that takes each channel by itself. Two cores may share what would else be one long step, and hold up all
/// that waits for it.</summary>
internal static class SideSteps
{
    /// <param name="graph">Takes the steps.</param>
    /// <param name="label">Name of the processor in its place.</param>
    /// <param name="input">What comes in, of two channels.</param>
    /// <param name="create">Makes the processor for one channel.</param>
    /// <returns>Both channels, put together again.</returns>
    public static Node Add(GraphBuilder graph, string label, Node input, Func<IProcessor> create)
    {
        var left = Side(graph, $"{label} left", input, 0, create());
        var right = Side(graph, $"{label} right", input, 1, create());
        return graph.Add(new PairNode(left, right) { Name = $"{label} both", Channels = 2, Latency = left.Latency }, graph.End(left));
    }

    private static SideNode Side(GraphBuilder graph, string name, Node input, int channel, IProcessor processor) =>
        graph.Add(new SideNode(input, channel, processor) { Name = name, Channels = 1, Latency = input.Latency + processor.LatencyFrames }, graph.End(input) + processor.TailFrames);
}
