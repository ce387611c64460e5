namespace DrumPrint.Delivering;

/// <summary>How a receiver whose mono files lose level in the centre makes up for it, and what is left then.</summary>
/// <param name="Name">What such a law is called, with its level at the centre.</param>
/// <param name="CentreDb">Its exact level at the centre.</param>
/// <param name="CorrectionDb">What every mono file is raised by, exact to 0.0001 dB.</param>
/// <param name="LeftDbfs">Peak of the sum less the rough with that correction.</param>
/// <param name="TypedDb">The correction as most would type it.</param>
/// <param name="LeftTypedDbfs">Peak of the sum less the rough with that.</param>
/// <param name="LeftBareDbfs">Peak of the sum less the rough without any correction.</param>
public sealed record PanLawLine(string Name, double CentreDb, double CorrectionDb, double LeftDbfs, double TypedDb, double LeftTypedDbfs, double LeftBareDbfs);
