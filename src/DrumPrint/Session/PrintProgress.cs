namespace DrumPrint.Session;

/// <summary>How far a run is.</summary>
/// <param name="Activity">What is being done, in a word or two.</param>
/// <param name="Part">0 to 1.</param>
public readonly record struct PrintProgress(string Activity, double Part);
