namespace DrumPrint.Chains;

/// <summary>What somebody asked for, and the version that answers it.</summary>
/// <param name="Version">Version of the delivery that answers it.</param>
/// <param name="Text">The wish, in the words of whoever had it.</param>
/// <param name="About">Tracks, buses, impulses, prints or <c>drum bus</c> whose changes answer it; empty when nothing was changed for it.</param>
/// <param name="Answer">What is said to it; null when the changes say it all.</param>
/// <param name="Line">Line in the chain file, from 1.</param>
public sealed record Wish(int Version, string Text, IReadOnlyList<string> About, string? Answer, int Line);
