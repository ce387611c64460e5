namespace DrumPrint.Dsp.Spectral;

/// <summary>What is asked of one octave of an impulse response.</summary>
/// <param name="CentreHz">Its nominal middle.</param>
/// <param name="DecayPart">Its decay against what it is; 1 leaves it.</param>
/// <param name="DecayS">Its decay in seconds instead; null for the part.</param>
/// <param name="LevelDb">Its level against what it is.</param>
internal sealed record OctaveAim(double CentreHz, double DecayPart, double? DecayS, double LevelDb)
{
    /// <summary>Whether its decay is to change.</summary>
    public bool MovesDecay => DecayS is not null || DecayPart != 1;

    /// <summary>Its exact middle in Hz: a whole number of octaves from 1 kHz.</summary>
    public double MiddleHz => CentreHz switch { 63 => 62.5, _ => CentreHz };
}
