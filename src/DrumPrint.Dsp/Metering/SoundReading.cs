namespace DrumPrint.Dsp.Metering;

/// <summary>What there is to say of a sound in figures. Null is what cannot be said of it.</summary>
public sealed record SoundReading
{
    /// <summary>Gated loudness of the whole; null when nothing passes the gates (silence, or less than 400 ms).</summary>
    public double? IntegratedLufs { get; init; }

    /// <summary>Loudest 3 s; null for silence or less than that.</summary>
    public double? ShortTermMaxLufs { get; init; }

    /// <summary>Loudest 400 ms; null for silence or less than that.</summary>
    public double? MomentaryMaxLufs { get; init; }

    /// <summary>Loudness range; null when no 3 s pass its gate.</summary>
    public double? RangeLu { get; init; }

    /// <summary>Highest level between the samples; null for silence.</summary>
    public double? TruePeakDbtp { get; init; }

    /// <summary>Highest sample; null for silence.</summary>
    public double? SamplePeakDbfs { get; init; }

    /// <summary>Mean level over all channels; null for silence.</summary>
    public double? RmsDbfs { get; init; }

    /// <summary>Peak over mean level; null for silence.</summary>
    public double? CrestDb { get; init; }

    /// <summary>Offset from zero of the channel that is furthest off, linear; null without a frame.</summary>
    public double? Dc { get; init; }

    /// <summary>How alike left and right are, 1 to −1; null unless there are two channels and both sound.</summary>
    public double? Correlation { get; init; }

    /// <summary>Seconds in which the end of the sound falls by 60 dB; null when it does not end in a decay.</summary>
    public double? DecayS { get; init; }

    /// <summary>Part of the time in which the level is within 40 dB of the loudest 10 ms; null for silence.</summary>
    public double? ActiveShare { get; init; }
}
