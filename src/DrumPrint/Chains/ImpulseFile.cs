using DrumPrint.Dsp;

namespace DrumPrint.Chains;

/// <summary>One impulse-response file.</summary>
/// <param name="Name">The word the chain uses.</param>
/// <param name="File">Path relative to the chain file.</param>
/// <param name="Layout">Meaning of the channels; null to take it from their number (1 mono, 2 stereo, 4 true stereo).</param>
/// <param name="Line">Line in the chain file, from 1.</param>
public sealed record ImpulseFile(string Name, string File, ImpulseLayout? Layout, int Line)
{
    /// <summary>What its licence is called; null when the chain says nothing.</summary>
    public string? Licence { get; init; }

    /// <summary>Whether its licence lets it lie in a delivery.</summary>
    public bool MayBePassedOn { get; init; }
}
