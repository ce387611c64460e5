using DrumPrint.Dsp.Alignment;

namespace DrumPrint.Aligning;

/// <summary>How one microphone hears a drum, against the microphone the drum is told by.</summary>
/// <param name="Drum">The drum: <c>kick</c>, <c>tom 2</c>.</param>
/// <param name="Reference">The drum's own microphone that others are held against.</param>
/// <param name="Microphone">The other one.</param>
/// <param name="Kind">Where that one stands.</param>
/// <param name="Found">What the raw files say.</param>
/// <param name="NowMs">By how much it is later in the chain as it is, in ms. Delays of both tracks count. Meaningless where the
/// delay is not known.</param>
/// <param name="IsOppositeNow">Whether polarity is opposite in the chain as it is; null where it cannot be told.</param>
public sealed record AlignmentRow(
    string Drum, string Reference, string Microphone, MicrophoneKind Kind, PairEstimate Found, double NowMs, bool? IsOppositeNow)
{
    /// <summary>The polarity, as far as it is a fact.</summary>
    public PairPolarity Polarity => Kind == MicrophoneKind.SameDrum ? Found.PolarityAtDrum : Found.Polarity;

    /// <summary>By how many frames the microphone hears the drum later; null where that cannot be told.</summary>
    public double? LaterFrames => Found.IsDelayKnown ? Found.DelayFrames : null;

    /// <summary>The same in ms.</summary>
    public double? LaterMs => Found.IsDelayKnown ? Found.DelayMs : null;

    /// <summary>The same as a way in air at 20 °C, in metres.</summary>
    public double? LaterM => Found.IsDelayKnown ? Found.DistanceM : null;

    /// <summary>How far off it may well be, in frames.</summary>
    public double? SpreadFrames => Found.IsDelayKnown ? Found.SpreadFrames : null;

    /// <summary>What is left of it in the chain, in ms.</summary>
    public double? LeftMs => Found.IsDelayKnown ? NowMs : null;

    /// <summary>Whether polarity as recorded is opposite; null where that cannot be told.</summary>
    public bool? IsOpposite => Polarity switch { PairPolarity.Same => false, PairPolarity.Opposite => true, _ => null };

    /// <summary>Hits of the drum that were listened to.</summary>
    public int Hits => Found.Hits;

    /// <summary>What 40 to 300 Hz of two microphones at one drum do as recorded, 1 add in full, −1 cancel; null for others.</summary>
    public double? BodyAgreement => Kind == MicrophoneKind.SameDrum ? Found.BodyAgreement : null;

    /// <summary>Track of the microphone: its name without a side.</summary>
    public required string Track { get; init; }

    /// <summary>The same of the reference.</summary>
    public required string ReferenceTrack { get; init; }
}

/// <summary>Where the second microphone of a pair stands.</summary>
public enum MicrophoneKind
{
    /// <summary>At the same drum.</summary>
    SameDrum,

    /// <summary>At another drum.</summary>
    OtherDrum,

    /// <summary>Over the kit.</summary>
    Overhead,

    /// <summary>In the room, or before the kit.</summary>
    Room,
}
