namespace DrumPrint.Dsp.Layering;

/// <summary>One hit under which a sound was played.</summary>
/// <param name="Frame">Where the hit's beginning lies, in frames of what came in, whole or not.</param>
/// <param name="LevelDb">Peak of the hit's first 8 ms in dBFS, of two sides the larger.</param>
/// <param name="GainDb">What the sound was raised or lowered by, in dB.</param>
/// <param name="IsInverted">Whether it was turned over.</param>
/// <param name="Likeness">Their correlation at that place, 0 to 1, whichever way up.</param>
public readonly record struct LayerHit(double Frame, double LevelDb, double GainDb, bool IsInverted, double Likeness);
