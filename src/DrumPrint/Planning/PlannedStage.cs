using DrumPrint.Chains;
using DrumPrint.Rendering;
using DrumPrint.Store;

namespace DrumPrint.Planning;

/// <summary>A processor of a graph.</summary>
/// <param name="Bus">Its bus; empty for the drum bus.</param>
/// <param name="Stage">What the chain says of it.</param>
/// <param name="Node">What runs it.</param>
/// <param name="Traces">What it does to the gain; none for one that leaves it alone.</param>
internal sealed record PlannedStage(string Bus, Stage Stage, StageNode Node, IReadOnlyList<GainTrace> Traces);
