using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Processors;

/// <summary>An octave of the impulse of a <see cref="Convolve"/>.</summary>
public sealed class ConvolveOctave : ItemKind
{
    // ISO 266: nominal middles of octaves.
    private static readonly double[] Middles = [63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000];

    internal ConvolveOctave()
        : this(
            new("freq_hz", Unit.Hertz, 63, 16000, null, "Middle of the octave.") { Steps = Middles, IsRequired = true },
            new("decay_pct", Unit.Percent, 10, 200, 100, "How long it decays, against how long it does in the impulse."),
            new("decay_s", Unit.Seconds, 0.02, 60, null, "How long it decays (the time to fall by 60 dB), instead of a part."),
            new("level_db", Unit.Decibels, -60, 24, 0, "How much louder it becomes or, below zero, softer."))
    {
    }

    private ConvolveOctave(NumberParameter freq, NumberParameter decay, NumberParameter seconds, NumberParameter level)
        : base("octave", "Another decay or level for one octave.", [freq, decay, seconds, level]) => (Freq, Decay, Seconds, Level) = (freq, decay, seconds, level);

    public NumberParameter Freq { get; }

    public NumberParameter Decay { get; }

    public NumberParameter Seconds { get; }

    public NumberParameter Level { get; }

    internal OctaveAim Aim(Item item) => new(item.Settings[Freq], item.Settings[Decay] / 100, item.Settings.Find(Seconds), item.Settings[Level]);
}
