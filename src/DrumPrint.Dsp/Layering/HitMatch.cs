namespace DrumPrint.Dsp.Layering;

/// <summary>How a sound lies best under a hit.</summary>
/// <param name="LaterFrames">Frames, whole or not, by which it begins later than where the hit was looked for.</param>
/// <param name="Correlation">Their correlation there, −1 to 1; below zero it fits upside down.</param>
/// <param name="Likeness">How much they are alike at most, 0 to 1, whichever way up.</param>
/// <param name="Ratio">Power of the hit over that of the sound.</param>
/// <param name="Spread">How far the place may stray: a variance in frames squared, but for a factor that all places share.</param>
internal readonly record struct HitMatch(double LaterFrames, double Correlation, double Likeness, double Ratio, double Spread);
