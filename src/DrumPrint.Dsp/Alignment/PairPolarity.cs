namespace DrumPrint.Dsp.Alignment;

/// <summary>How two microphones hear the same push of a drum.</summary>
public enum PairPolarity
{
    /// <summary>It cannot be told.</summary>
    CannotBeTold,

    /// <summary>The same way round.</summary>
    Same,

    /// <summary>One of them upside down.</summary>
    Opposite,
}
