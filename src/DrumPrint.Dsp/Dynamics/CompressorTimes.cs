namespace DrumPrint.Dsp.Dynamics;

/// <summary>The times of a compressor in milliseconds.</summary>
/// <param name="AttackMs">To 63.2 % of a rise of the reduction.</param>
/// <param name="ReleaseMs">To 63.2 % of its fall.</param>
/// <param name="RmsMs">Averaging time of the RMS detector; null for a peak detector.</param>
internal readonly record struct CompressorTimes(double AttackMs, double ReleaseMs, double? RmsMs);
