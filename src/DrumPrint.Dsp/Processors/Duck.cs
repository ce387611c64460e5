using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Lowers the signal while the key is loud.</summary>
/// <remarks>The detector reads the key's wave between the samples too, of two sides the larger; without a key it reads the
/// signal. See <see cref="TriggeredGain"/>.</remarks>
public sealed class Duck : IProcessor, IGainReducer
{
    /// <summary>Sets the threshold by the hits of the key that are to lower the signal.</summary>
    public static readonly Goal ForHits = new(
        new NumberParameter("for_hits_above_db", Unit.Decibels, -80, 20, null, "Lowers the signal for every hit of the key that peaks at so much or more, and is as high as that allows.") { IsRequired = true });

    public static readonly NumberParameter Threshold = new("threshold_db", Unit.Decibels, -120, 20, -30, "Peak level of the key from which the signal is lowered.") { Goals = [ForHits] };
    public static readonly NumberParameter Amount = new("amount_db", Unit.Decibels, 0, 60, 6, "How far the signal is lowered.");
    public static readonly NumberParameter Attack = new("attack_ms", Unit.Milliseconds, 0, 500, 1, "Time to go down, along a raised cosine.");
    public static readonly NumberParameter Hold = new("hold_ms", Unit.Milliseconds, 0, 5000, 0, "How long the key has to stay below before the signal comes back.");
    public static readonly NumberParameter Release = new("release_ms", Unit.Milliseconds, 0, 10000, 120, "Time to come back, along a raised cosine.");
    public static readonly NumberParameter KeyHighPass = new("key_high_pass_hz", Unit.Hertz, 10, 20000, null, "Makes the key deaf to what is below, 12 dB per octave.");
    public static readonly NumberParameter KeyLowPass = new("key_low_pass_hz", Unit.Hertz, 20, 20000, null, "Makes the key deaf to what is above, 12 dB per octave.");

    private readonly KeyedGain _gain;

    private Duck(Settings settings, ProcessorContext context)
    {
        var rate = context.Format.SampleRate;
        var times = new TriggerTimes(
            TriggerTimes.Frames(settings[Attack], rate),
            TriggerTimes.Frames(settings[Hold], rate),
            TriggerTimes.Frames(settings[Release], rate));
        var levels = TriggerLevels.FromDecibels(settings[Threshold], settings[Threshold]);
        var gain = new TriggeredGain(levels, times, 1, Decibels.ToGain(-settings[Amount]), fallsStraight: false);
        var input = new KeyInput(context, settings.Find(KeyHighPass), settings.Find(KeyLowPass));
        _gain = new KeyedGain(context, new LinkedPeak(input, rate), 0, (values, frames) => gain.Follow(values[..frames]));
        MemoryFrames = input.MemoryFrames + LatencyFrames + times.MemoryFrames;
    }

    public static ProcessorDefinition Definition { get; } = new(
        "duck",
        1,
        "Lowers the signal while the key is loud.",
        [Threshold, Amount, Attack, Hold, Release, KeyHighPass, KeyLowPass],
        static (settings, context) => new Duck(settings, context))
    {
        AlsoCalled = ["ducker", "sidechain"],
        TakesKey = true,
        IsNonLinear = true,
    };

    public int LatencyFrames => _gain.LatencyFrames;

    public long MemoryFrames { get; }

    /// <summary>The gain over time, in time with the sound after the latency has been taken out.</summary>
    public GainCurve GainCurve => _gain.Curve;

    public void Process(AudioBlock block, AudioBlock key) => _gain.Process(block, key);
}
