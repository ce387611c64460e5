namespace DrumPrint.Dsp.Tests.Alignment.Truth;

/// <summary>Two recordings of one drum whose delay and polarity are known.</summary>
/// <param name="Kind">Where the second microphone stands.</param>
/// <param name="Sound">What the drums sound like.</param>
/// <param name="RateHz">Frames in a second.</param>
/// <param name="SpillDb">Peak of the other drum in the close microphone, against the drum named.</param>
/// <param name="DistanceM">From the drum to the second microphone.</param>
/// <param name="LagFrames">Frames by which the second microphone hears the drum later; negative for earlier.</param>
/// <param name="IsInverted">Whether one of the two is upside down.</param>
/// <param name="Close">The close microphone.</param>
/// <param name="Other">The second one.</param>
internal sealed record TruthPair(
    TruthKind Kind, TruthSound Sound, int RateHz, double SpillDb, double DistanceM, double LagFrames, bool IsInverted, double[] Close, double[] Other)
{
    /// <summary>How far off a lag may be to be right, in frames at 48 kHz.</summary>
    public double ToleranceFrames => Kind switch
    {
        TruthKind.Close => 0.3,
        TruthKind.Overhead => 1,
        _ => 2,
    };
}

/// <summary>Where the second microphone of a pair stands.</summary>
internal enum TruthKind
{
    /// <summary>At the same drum, 0.12 to 0.6 m away.</summary>
    Close,

    /// <summary>Over the kit, 0.8 to 1.7 m away.</summary>
    Overhead,

    /// <summary>In the room, 2 to 5 m away.</summary>
    Room,
}

/// <summary>What the drums of a scene sound like.</summary>
internal enum TruthSound
{
    /// <summary>A burst of noise, another one at each hit.</summary>
    NoiseBurst,

    /// <summary>A click through two resonant filters, the same at each hit.</summary>
    FilteredClick,

    /// <summary>The modes of a membrane, dying away, with a soft beater's click.</summary>
    Modes,

    /// <summary>Click, falling modes and rattle, no hit like another.</summary>
    Played,
}
