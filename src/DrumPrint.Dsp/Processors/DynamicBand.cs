using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>A kind of band of a <see cref="DynamicEq"/>.</summary>
public sealed class DynamicBand : ItemKind
{
    internal DynamicBand(string key, string summary, string freqHelp, NumberParameter? q)
        : this(
            key,
            summary,
            new NumberParameter("freq_hz", Unit.Hertz, 20, 20000, null, freqHelp) { IsRequired = true },
            q,
            new NumberParameter("threshold_db", Unit.Decibels, -80, 20, -30, "Level of the band above which it is turned down."),
            new NumberParameter("ratio", Unit.None, 1, 100, 3, "How many dB above the threshold go in for one dB that comes out."),
            new NumberParameter("knee_db", Unit.Decibels, 0, 48, 6, "Width of the bend around the threshold."),
            new NumberParameter("attack_ms", Unit.Milliseconds, 0, 500, 5, "Time to go 63 % of the way down."),
            new NumberParameter("release_ms", Unit.Milliseconds, 1, 5000, 120, "Time to come 63 % of the way back."))
    {
    }

    private DynamicBand(string key, string summary, NumberParameter freq, NumberParameter? q, NumberParameter threshold, NumberParameter ratio, NumberParameter knee, NumberParameter attack, NumberParameter release)
        : base(key, summary, q is null ? [freq, threshold, ratio, knee, attack, release] : [freq, q, threshold, ratio, knee, attack, release]) =>
        (Freq, Q, Threshold, Ratio, Knee, Attack, Release) = (freq, q, threshold, ratio, knee, attack, release);

    public NumberParameter Freq { get; }

    /// <summary>Null for a shelf.</summary>
    public NumberParameter? Q { get; }

    public NumberParameter Threshold { get; }

    public NumberParameter Ratio { get; }

    public NumberParameter Knee { get; }

    public NumberParameter Attack { get; }

    public NumberParameter Release { get; }
}
