namespace DrumPrint.Live;

/// <summary>How loud a sum was in the last seconds.</summary>
/// <param name="ShortTermLufs">Loudness of the last 3 s; −∞ for silence.</param>
/// <param name="TruePeakDb">True peak of the last 2 to 3 s; −∞ for silence.</param>
/// <param name="CrestDb">True peak over mean power.</param>
/// <param name="BandsDb">Level in thirds of an octave, 25 Hz to 20 kHz.</param>
public sealed record LiveReading(double ShortTermLufs, double TruePeakDb, double CrestDb, IReadOnlyList<double> BandsDb);
