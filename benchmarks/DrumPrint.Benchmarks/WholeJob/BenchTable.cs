using System.Diagnostics;
using System.Globalization;
using DrumPrint.Chains.Reading;
using DrumPrint.Files;
using DrumPrint.Live;
using DrumPrint.Printing;

namespace DrumPrint.Benchmarks.WholeJob;

/// <summary>What a jump and a change cost in the engine of the bench, without browser and server.</summary>
internal static class BenchTable
{
    private const int Jumps = 10;

    public static int Run(string chainPath)
    {
        var session = LiveSession.Of(ChainReader.Read(SessionFolder.Chain(chainPath)), ReadPolicy.Default, null);
        var rate = session.Chain.Song.RateHz;
        var pool = new BlockPool(rate / LiveGraph.BlocksPerSecond);
        var settings = new HeardSettings(new Strips(), false, 0);
        var blocks = new LiveLength(session).RawEnd / (rate / LiveGraph.BlocksPerSecond);
        LiveGraph? graph = null;
        for (var n = 0; n < Jumps; n++)
        {
            graph?.Drop();
            var (wall, processor) = (Stopwatch.GetTimestamp(), Process.GetCurrentProcess().TotalProcessorTime);
            graph = LiveGraph.Build(session, settings, null, blocks * (n + 1) / (Jumps + 2), pool);
            var built = Stopwatch.GetElapsedTime(wall).TotalMilliseconds;
            graph.PreRoll(graph.Position, null);
            graph.Advance(graph.Position);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"jump: made in {built:0} ms, sounds after {Stopwatch.GetElapsedTime(wall).TotalMilliseconds:0} ms, processor {(Process.GetCurrentProcess().TotalProcessorTime - processor).TotalMilliseconds:0} ms"));
        }

        var start = Process.GetCurrentProcess().TotalProcessorTime;
        for (var n = 0; n < 10 * LiveGraph.BlocksPerSecond; n++)
        {
            graph!.Advance(graph.Position);
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"playing: {(Process.GetCurrentProcess().TotalProcessorTime - start).TotalSeconds * 10:0.0} % of a core"));
        foreach (var bus in session.Chain.Buses)
        {
            var louder = session.Chain with { Buses = [.. session.Chain.Buses.Select(b => b.Name == bus.Name ? b with { Feeds = [b.Feeds[0] with { LevelDb = b.Feeds[0].LevelDb + 1 }, .. b.Feeds.Skip(1)] } : b)] };
            var (wall, processor) = (Stopwatch.GetTimestamp(), Process.GetCurrentProcess().TotalProcessorTime);
            var next = LiveGraph.Build(LiveSession.Of(louder, ReadPolicy.Default, session), settings, graph, graph!.Position, pool);
            var built = Stopwatch.GetElapsedTime(wall).TotalMilliseconds;
            next.PreRoll(graph.Position, null);
            next.Advance(graph.Position);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"change of {bus.Name}: {next.NewNodes} steps, made in {built:0} ms, sounds after {Stopwatch.GetElapsedTime(wall).TotalMilliseconds:0} ms, processor {(Process.GetCurrentProcess().TotalProcessorTime - processor).TotalMilliseconds:0} ms"));
        }

        return 0;
    }
}
