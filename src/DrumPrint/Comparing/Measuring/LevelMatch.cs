namespace DrumPrint.Comparing.Measuring;

/// <summary>By what two sides are brought to one level.</summary>
public enum LevelMatch
{
    /// <summary>Gated loudness of the passage.</summary>
    Loudness,

    /// <summary>Mean level of the passage.</summary>
    Rms,

    /// <summary>Nothing is matched: as loud as they are.</summary>
    TrueLevel,
}
