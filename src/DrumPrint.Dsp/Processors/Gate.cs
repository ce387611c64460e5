using System.Globalization;
using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Lets hits through and turns down what lies between them.</summary>
/// <remarks>The detector reads the wave between the samples too, of two sides the larger, and both sides share one gain.
/// See <see cref="TriggeredGain"/> and, for <c>expand</c>, <see cref="DownwardExpander"/>. The parameters are those of
/// Terrell, Reiss and Sandler, EURASIP JASP 2010, 465417, with a second level and look-ahead added.</remarks>
public sealed class Gate : IProcessor, IGainReducer
{
    public static readonly ChoiceParameter Action = new(
        "action",
        [new("gate", "Open or closed, with two levels."), new("expand", "Turned down the more, the softer it is: by (ratio − 1) dB for each dB that the highest level of the last hold_ms lies below open_db; close_db has no part in it.")],
        "gate",
        "How it turns down.");

    /// <summary>Sets the level that opens the gate by the hits it is to let through.</summary>
    public static readonly Goal KeepHits = new(
        new NumberParameter("keep_hits_above_db", Unit.Decibels, -80, 20, null, "Lets every hit through that peaks at so much or more, and is as high as that allows.") { IsRequired = true });

    public static readonly NumberParameter Open = new("open_db", Unit.Decibels, -120, 20, -36, "Peak level that opens the gate.") { AlsoCalled = ["threshold"], IsInExample = true, Goals = [KeepHits] };
    public static readonly NumberParameter Close = new("close_db", Unit.Decibels, -140, 20, null, "Level it has to stay below to close again.") { LeftOut = "6 dB under open_db" };
    public static readonly NumberParameter Ratio = new("ratio", Unit.None, 1, 100, 2, "For expand: how many dB softer for each dB below open_db. A level d dB below is turned down by (ratio − 1) · d dB, at most to range_db.");
    public static readonly NumberParameter Ahead = new("look_ahead_ms", Unit.Milliseconds, 0, 50, 0, "How long before a hit the gate starts to open. The print stays in time.");
    public static readonly NumberParameter Attack = new("attack_ms", Unit.Milliseconds, 0, 500, 0.3, "Time from closed to open, along a raised cosine in gain: after the part p of it, (1 − cos πp) / 2 of the way. For expand a straight line in dB, and a swing of d dB takes d / range_db of the time.");
    public static readonly NumberParameter Hold = new("hold_ms", Unit.Milliseconds, 0, 5000, 60, "How long the level has to stay below before it closes. For expand how long any level goes on counting. The look-ahead is added, so the sound is held as long with it as without.") { IsInExample = true };
    public static readonly NumberParameter Release = new("release_ms", Unit.Milliseconds, 0, 10000, 150, "Time from open to closed, a straight line in dB. For expand a swing of d dB takes d / range_db of it.") { IsInExample = true };
    public static readonly NumberParameter Range = new("range_db", Unit.Decibels, -120, 0, -60, "Gain while closed.") { IsInExample = true };
    public static readonly NumberParameter KeyHighPass = new("key_high_pass_hz", Unit.Hertz, 10, 20000, null, "Keeps what is below from opening the gate, 12 dB per octave.");
    public static readonly NumberParameter KeyLowPass = new("key_low_pass_hz", Unit.Hertz, 20, 20000, null, "Keeps what is above from opening the gate, 12 dB per octave.");

    private const double DefaultHysteresisDb = 6;

    // Whether a gate is open between its two levels hangs on which of them was passed last. Drums pass one within a second.
    private const double HoveringMs = 1000;

    private readonly KeyedGain _gain;

    private Gate(Settings settings, ProcessorContext context)
    {
        var rate = context.Format.SampleRate;
        var input = new KeyInput(context, settings.Find(KeyHighPass), settings.Find(KeyLowPass));
        var ahead = TriggerTimes.Frames(settings[Ahead], rate);

        // The gain runs ahead of the sound, so the hold is that much longer to end with it.
        var times = new TriggerTimes(
            TriggerTimes.Frames(settings[Attack], rate),
            TriggerTimes.Frames(settings[Hold], rate) + ahead,
            TriggerTimes.Frames(settings[Release], rate));
        _gain = new KeyedGain(context, new LinkedPeak(input, rate), ahead, Following(settings, times));
        MemoryFrames = input.MemoryFrames + LatencyFrames + times.MemoryFrames + TriggerTimes.Frames(HoveringMs, rate);
    }

    public static ProcessorDefinition Definition { get; } = new(
        "gate",
        1,
        "Lets hits through and turns down what lies between them.",
        [Action, Open, Close, Ratio, Ahead, Attack, Hold, Release, Range, KeyHighPass, KeyLowPass],
        static (settings, context) => new Gate(settings, context))
    {
        AlsoCalled = ["expander", "noise_gate"],
        TakesKey = true,
        IsNonLinear = true,
    };

    public int LatencyFrames => _gain.LatencyFrames;

    /// <summary>A key that stays between both levels for more than a second may have opened it earlier than this.</summary>
    public long MemoryFrames { get; }

    /// <summary>The gain over time, in time with the sound after the latency has been taken out.</summary>
    public GainCurve GainCurve => _gain.Curve;

    public void Process(AudioBlock block, AudioBlock key) => _gain.Process(block, key);

    private static KeyedGain.Following Following(Settings settings, TriggerTimes times)
    {
        if (settings[Action] == "expand")
        {
            return new DownwardExpander(settings[Open], settings[Ratio], settings[Range], times).Follow;
        }

        var gate = new TriggeredGain(Levels(settings), times, Decibels.ToGain(settings[Range]), 1, fallsStraight: true);
        return (values, frames) => gate.Follow(values[..frames]);
    }

    private static TriggerLevels Levels(Settings settings)
    {
        var open = settings[Open];
        var close = settings.Find(Close) ?? (open - DefaultHysteresisDb);
        return close <= open
            ? TriggerLevels.FromDecibels(open, close)
            : throw new SettingsException(
                Close,
                string.Create(CultureInfo.InvariantCulture, $"'close_db' is {close:0.###} dB, above 'open_db' at {open:0.###} dB; a gate that closes above the level it opens at would never stay open. Set 'close_db' to {open:0.###} dB or less.").Replace('-', '−'));
    }
}
