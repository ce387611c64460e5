namespace DrumPrint.Dsp.Alignment;

/// <summary>A place where a microphone hears a drum being hit.</summary>
/// <param name="Frame">Frame at which the sound begins, to about a millisecond.</param>
/// <param name="Level">Root of the mean power of the first 10 ms, linear.</param>
public readonly record struct Hit(long Frame, double Level);
