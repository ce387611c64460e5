using DrumPrint.Chains;
using DrumPrint.Rendering;

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

    /// <summary>Stages of each bus in order; the drum bus under an empty name.</summary>
    public required IReadOnlyDictionary<string, IReadOnlyList<PlannedStage>> Stages { get; init; }

    /// <summary>Song frame up to which files are written.</summary>
    public required long EndFrame { get; init; }

    /// <summary>Frames to run the graph for, latency included.</summary>
    public required long Frames { get; init; }

    public void Dispose()
    {
        foreach (var source in Sources.Values)
        {
            source.Dispose();
        }
    }
}

/// <summary>What a file beside the others is.</summary>
public enum PrintKind
{
    /// <summary>A playing print, part of the rough.</summary>
    Playing,

    /// <summary>An extra with its fader down.</summary>
    Optional,

    /// <summary>The sum of the playing prints.</summary>
    Rough,

    /// <summary>The rough through the drum bus.</summary>
    RoughWithBus,

    /// <summary>Clicks on the beats.</summary>
    Click,
}

/// <summary>One file of a plan.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Number">First part of the name.</param>
/// <param name="Name">Second part of the name.</param>
/// <param name="Print">The chain's words; null for roughs and click.</param>
/// <param name="Latency">Frames of latency taken out.</param>
/// <param name="Writer">Where it is measured and written.</param>
internal sealed record PlannedPrint(PrintKind Kind, int Number, string Name, Print? Print, long Latency, WriterNode Writer);

/// <summary>One processor of a plan.</summary>
/// <param name="Stage">The chain's words.</param>
/// <param name="Node">Where it runs.</param>
internal sealed record PlannedStage(Stage Stage, StageNode Node);
