using DrumPrint.Chains;

namespace DrumPrint.Session;

/// <summary>One file a chain asks for.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Number">First part of the name.</param>
/// <param name="Name">Second part of the name.</param>
/// <param name="Print">The chain's words; null for roughs and click.</param>
/// <param name="LevelDb">Level of a rough, peak of a click.</param>
internal sealed record PrintTarget(PrintKind Kind, int Number, string Name, Print? Print, double LevelDb);
