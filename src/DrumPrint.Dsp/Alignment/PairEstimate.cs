namespace DrumPrint.Dsp.Alignment;

/// <summary>How a second microphone hears the drum of a close one: how much later, and which way up.</summary>
public sealed record PairEstimate
{
    /// <summary>From this confidence on, a delay or a polarity is a fact.</summary>
    public const double FactConfidence = 0.5;

    // 0.3 frames at 48 kHz, or a part of a long way. Over 1 m that much matters less than a move of the head of the drum.
    private const double WidestSpreadS = 0.3 / 48000;
    private const double WidestSpreadPart = 1.0 / 250;
    private const double WidestDriftS = 0.25 / 48000;
    private const double TellingBody = 0.5;
    private const int FewestBodies = 3;
    private const double MetresPerSecond = 343.2; // ISO 9613-1 at 20 °C

    /// <summary>Frames in a second.</summary>
    public required int RateHz { get; init; }

    /// <summary>Hits of the drum that were listened to.</summary>
    public required int Hits { get; init; }

    /// <summary>The best fit: frames, and parts of one, by which the second microphone is later; negative when earlier. A guess
    /// unless <see cref="IsDelayKnown"/>.</summary>
    public double DelayFrames { get; init; }

    /// <summary>How far off the delay may well be, in frames: from how far the phases of the frequencies leave one straight line.
    /// As likely as not the error is smaller; twice this is rare.</summary>
    public double SpreadFrames { get; init; } = double.PositiveInfinity;

    /// <summary>By how much a longer window puts the delay elsewhere, in frames.</summary>
    public double DriftFrames { get; init; }

    /// <summary>How sure the place is, 0 to 1. Three things tell. One is how far the best fit stands above the next one
    /// elsewhere, of either sign. One is how much of the drum's sound is alike in both. One is how many hits there were. The
    /// least of the three counts.</summary>
    public double Confidence { get; init; }

    /// <summary>How sure the polarity is, 0 to 1. To the same three come two more. One is how far the best fit of the other sign
    /// stays behind. The other is how clearly the low band of both adds up (or cancels) at the best fit. 0 where the low band
    /// says the opposite.</summary>
    public double PolarityConfidence { get; init; }

    /// <summary>Whether the best fit is upside down; a guess unless <see cref="Polarity"/> says so.</summary>
    public bool FitsInverted { get; init; }

    /// <summary>How much stronger the sum of both low bands is at the best fit than that of unrelated sounds, in dB; below 0 they
    /// cancel. Both count at one level, so that 3.01 is the most.</summary>
    public double LowSumDb { get; init; }

    /// <summary>Whether the bodies of both, 40 to 300 Hz, add up as they stand: 1 in full, −1 they cancel, 0 neither.</summary>
    public double BodyAgreement { get; init; }

    /// <summary>Whether the delay is a fact.</summary>
    public bool IsDelayKnown => Confidence >= FactConfidence && SpreadFrames <= Widest(WidestSpreadS) && DriftFrames <= Widest(WidestDriftS);

    /// <summary>The polarity, as far as it is a fact.</summary>
    public PairPolarity Polarity => PolarityConfidence < FactConfidence ? PairPolarity.CannotBeTold : FitsInverted ? PairPolarity.Opposite : PairPolarity.Same;

    /// <summary>The polarity of two microphones at one drum: where the phases of single frequencies leave it open, its body may tell. Of
    /// microphones further apart that says nothing.</summary>
    public PairPolarity PolarityAtDrum => Polarity != PairPolarity.CannotBeTold || Hits < FewestBodies || Math.Abs(BodyAgreement) < TellingBody
        ? Polarity
        : BodyAgreement < 0 ? PairPolarity.Opposite : PairPolarity.Same;

    /// <summary>The delay in milliseconds.</summary>
    public double DelayMs => 1000 * DelayFrames / RateHz;

    /// <summary>The delay as a way in air at 20 °C, in metres.</summary>
    public double DistanceM => DelayFrames / RateHz * MetresPerSecond;

    private double Widest(double seconds) => Math.Max(seconds * RateHz, WidestSpreadPart * Math.Abs(DelayFrames));
}
