namespace DrumPrint.Dsp.Alignment;

/// <summary>When something is hit, as one microphone hears it.</summary>
/// <param name="Hits">Hits that raise the level of the whole, in order of time: its own drum's, and others' that spill in.</param>
/// <param name="BrightHits">Hits that raise what is left of the sound after a rise of 6 dB per octave. Those of cymbals are among
/// them: they hide below the ring of a drum.</param>
public sealed record HitTimes(IReadOnlyList<Hit> Hits, IReadOnlyList<Hit> BrightHits);
