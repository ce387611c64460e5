using System.Diagnostics;

namespace DrumPrint.Rendering;

/// <summary>Where the time of a render went; differs from run to run.</summary>
/// <param name="Steps">Every step, longest first.</param>
/// <param name="LongestChain">The steps, each needing the one before it, that took longest together.</param>
/// <param name="SpeedUps">How much faster the steps would be done by several cores than by one, by number of cores.</param>
public sealed record RunProfile(IReadOnlyList<NodeTime> Steps, IReadOnlyList<NodeTime> LongestChain, IReadOnlyList<(int Cores, double Times)> SpeedUps)
{
    private static readonly int[] Cores = [2, 4, 8, 16, 32];

    internal static RunProfile Of(IReadOnlyList<Node> nodes) => new(
        [.. nodes.Select(Time).OrderByDescending(n => n.Seconds)],
        [.. Rendering.LongestChain.Of(nodes).Select(Time)],
        [.. Cores.Select(c => (c, SpeedUp.On(nodes, c)))]);

    private static NodeTime Time(Node node) => new(node.Name, (double)node.BusyTicks / Stopwatch.Frequency);
}
