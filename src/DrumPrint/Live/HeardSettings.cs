namespace DrumPrint.Live;

/// <summary>What is heard of a chain.</summary>
/// <param name="Strips">Faders of the prints.</param>
/// <param name="WithBus">Whether the sum goes through the drum bus.</param>
/// <param name="TrimDb">Common trim of all prints, the last one known.</param>
internal sealed record HeardSettings(Strips Strips, bool WithBus, double TrimDb)
{
    /// <summary>Whether tracks and buses keep the last seconds, so that another graph can begin in them.</summary>
    public bool KeepsPast { get; init; } = true;
}
