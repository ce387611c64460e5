using DrumPrint.Chains;
using DrumPrint.Rendering;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Planning;

/// <summary>A graph ready to run, with what must be read off it afterwards.</summary>
internal sealed class RenderPlan : IDisposable
{
    /// <summary>Every node, each after its inputs.</summary>
    public required IReadOnlyList<Node> Nodes { get; init; }

    public required IReadOnlyList<PlannedPrint> Prints { get; init; }

    /// <summary>The proof that prints add up to the rough; null when not all of them are rendered.</summary>
    public required NullNode? Null { get; init; }

    /// <summary>Open recordings, by track name.</summary>
    public required IReadOnlyDictionary<string, ITrackSource> Sources { get; init; }

    /// <summary>What the processors of each bus do to the gain; the drum bus under an empty name.</summary>
    public required IReadOnlyDictionary<string, IReadOnlyList<GainTrace>> Traces { get; init; }

    /// <summary>Kept signals that are read.</summary>
    public required IReadOnlyList<SignalReader> Kept { get; init; }

    /// <summary>Signals that are kept for later runs.</summary>
    public required IReadOnlyList<SignalWriter> Keeping { get; init; }

    /// <summary>Frames to run the graph for, latency included.</summary>
    public required long Frames { get; init; }

    /// <summary>How an excerpt begins in mid-song; null for what runs from the start.</summary>
    public LateBegin? Late { get; init; }

    public void Dispose()
    {
        foreach (var source in Sources.Values.Distinct().Concat<IDisposable>(Kept).Concat(Keeping))
        {
            source.Dispose();
        }
    }
}

/// <summary>One file of a plan.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Number">First part of the name.</param>
/// <param name="Name">Second part of the name.</param>
/// <param name="Print">The chain's words; null for roughs and click.</param>
/// <param name="Latency">Frames of latency taken out.</param>
/// <param name="Writer">Where it is measured and written.</param>
internal sealed record PlannedPrint(PrintKind Kind, int Number, string Name, Print? Print, long Latency, WriterNode Writer);
