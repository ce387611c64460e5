namespace DrumPrint.Chains;

/// <summary>A file rendered from a bus.</summary>
/// <param name="Number">First part of the file name, 1 to 99.</param>
/// <param name="Name">Second part of the file name.</param>
/// <param name="Bus">Bus it is rendered from.</param>
/// <param name="LevelDb">Level; part of the rough.</param>
/// <param name="IsOptional">Printed, but left out of the rough: an extra with its fader down.</param>
/// <param name="Line">Line in the chain file, from 1.</param>
public sealed record Print(int Number, string Name, string Bus, double LevelDb, bool IsOptional, int Line)
{
    /// <summary>What it is for; null when the chain says nothing.</summary>
    public string? Notes { get; init; }

    /// <summary>How much it matters to the mixer.</summary>
    public PrintKeep Keep { get; init; }
}
