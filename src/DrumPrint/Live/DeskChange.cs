using DrumPrint.Chains;

namespace DrumPrint.Live;

/// <summary>A chain that gave way to another.</summary>
/// <param name="Before">What it was.</param>
/// <param name="After">What it is.</param>
/// <param name="Sentences">What changed, in the words of a comparison of both.</param>
public sealed record DeskChange(Chain Before, Chain After, IReadOnlyList<string> Sentences);
