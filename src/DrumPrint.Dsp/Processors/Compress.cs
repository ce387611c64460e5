using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Turns down what is louder than a threshold, by a ratio.</summary>
/// <remarks>Source: Giannoulis, Massberg and Reiss, "Digital Dynamic Range Compressor Design – A Tutorial and Analysis", JAES
/// 60(6), 2012. From there come the static curve and the smooth decoupled detector after it, in decibels. The detector reads
/// the wave between the samples too, and the gain is applied without folding. See <see cref="GainComputer"/>,
/// <see cref="Ballistics"/>, <see cref="FeedbackLoop"/>, <see cref="TrueLevel"/> and <see cref="GainRates"/>.</remarks>
public sealed class Compress : IProcessor, IGainReducer
{
    public static readonly ChoiceParameter Topology = new(
        "topology",
        [
            new("feed_forward", "The detector listens to the signal as it comes in."),
            new("feedback", "The detector listens to what comes out; with a key it listens to the key, as feed_forward does."),
        ],
        "feed_forward",
        "Where the detector listens. Threshold, ratio and times mean the same either way.");

    /// <summary>Which hits a goal goes by.</summary>
    public static readonly ChoiceParameter Hits = new(
        "on",
        [new("loud_hits", "Those within 6 dB of the third loudest."), new("all_hits", "Those within 18 dB of it.")],
        "loud_hits",
        "Which hits are meant, as the detector hears them.");

    /// <summary>Sets a threshold by what it does to hits.</summary>
    public static readonly Goal ForReduction = new(
        new NumberParameter("for_reduction_db", Unit.Decibels, 0.5, 40, null, "Turns hits down by so much, in the middle.") { IsRequired = true },
        Hits);

    /// <summary>Sets the make-up so that nothing becomes louder or softer.</summary>
    public static readonly Goal SameLoudness = new(new ToggleParameter("match_loudness", true, "As loud as it went in, by a loudness meter."));

    public static readonly NumberParameter Threshold = new("threshold_db", Unit.Decibels, -80, 20, -20, "Level above which the signal is turned down.") { Goals = [ForReduction] };
    public static readonly NumberParameter Ratio = new("ratio", Unit.None, 1, 100, 4, "How many dB above the threshold go in for one dB that comes out.");
    public static readonly NumberParameter Knee = new("knee_db", Unit.Decibels, 0, 36, 6, "Width of the soft bend around the threshold; 0 is a corner.");
    public static readonly NumberParameter Ahead = new("look_ahead_ms", Unit.Milliseconds, 0, 10, 0, "How long before a hit the gain starts to come down. The print stays in time.");
    public static readonly NumberParameter Attack = new("attack_ms", Unit.Milliseconds, 0, 500, 10, "Time to come 63 % of the way down when a hit arrives.");
    public static readonly NumberParameter Release = new("release_ms", Unit.Milliseconds, 0, 10000, 120, "Time to come 63 % of the way back when the hit is over.");

    public static readonly ChoiceParameter Detector = new(
        "detector",
        [new("peak", "Reads the peaks."), new("rms", "Reads the RMS level: 3 dB under the peak for a sine.")],
        "peak",
        "What counts as the level.");

    public static readonly NumberParameter RmsTime = new("rms_ms", Unit.Milliseconds, 0.1, 1000, 10, "Averaging time of the RMS detector.");
    public static readonly NumberParameter KeyHighPass = new("key_high_pass_hz", Unit.Hertz, 10, 10000, null, "Keeps what is below from driving the detector, 12 dB per octave.");
    public static readonly NumberParameter Link = new("link_pct", Unit.Percent, 0, 100, 100, "How far each side follows the side that is turned down most; 100 keeps the image still.");
    public static readonly NumberParameter MakeUp = new("make_up_db", Unit.Decibels, -40, 40, 0, "Level added after the compression.") { Goals = [SameLoudness] };
    public static readonly NumberParameter Mix = new("mix_pct", Unit.Percent, 0, 100, 100, "Part of the compressed signal; the rest is the untouched one.");

    public static readonly ChoiceParameter LinkBy = new(
        "link_by",
        [
            new("larger", "The louder side."),
            new("sum", "The power of both, (L² + R²) / 2: a hit on one side counts 3 dB less."),
            new("mid", "What both have in common, (L + R) / 2: a hit on one side counts 6 dB less, and what is only side nothing."),
        ],
        "larger",
        "What the detector reads of two sides that are fully linked.")
    {
        IsLeftOutAtDefault = true,
    };

    public static readonly NumberParameter Hold = new("hold_ms", Unit.Milliseconds, 0, 500, 0, "How long a reduction stays before it comes back.") { IsLeftOutAtDefault = true };
    public static readonly NumberParameter SlowRelease = new("slow_release_ms", Unit.Milliseconds, 20, 20000, null, "A second release for what has been turned down for long; short hits come back by the first.") { IsLeftOutAtDefault = true };
    public static readonly NumberParameter SlowAfter = new("slow_after_ms", Unit.Milliseconds, 1, 10000, 500, "How long something is turned down until 63 % of it comes back by the second release.") { IsLeftOutAtDefault = true };

    public static readonly ChoiceParameter Times = new(
        "times",
        [
            new("as_set", "As attack_ms and release_ms say."),
            new("by_crest", "They are those of a sine, together release_ms; the more it is peaks that are heard, the shorter both become. For feed_forward only."),
        ],
        "as_set",
        "Whether attack and release move with what is heard.")
    {
        IsLeftOutAtDefault = true,
    };

    public static readonly NumberParameter Deep = new("deep_db", Unit.Decibels, 0.5, 60, null, "A reduction this deep comes back twice as fast as release_ms says, a deeper one faster still, and the last of it by release_ms. For feed_forward only.") { IsLeftOutAtDefault = true };
    public static readonly NumberParameter KeyLowPass = new("key_low_pass_hz", Unit.Hertz, 20, 20000, null, "Keeps what is above from driving the detector, 12 dB per octave.") { IsLeftOutAtDefault = true };
    public static readonly NumberParameter KeyBell = new("key_bell_hz", Unit.Hertz, 20, 20000, null, "The middle of a region that the detector hears louder or softer.") { IsLeftOutAtDefault = true };
    public static readonly NumberParameter KeyBellGain = new("key_bell_db", Unit.Decibels, -36, 36, 6, "How much louder or, below zero, softer it hears it.") { IsLeftOutAtDefault = true };
    public static readonly NumberParameter KeyBellQ = new("key_bell_q", Unit.None, 0.1, 30, 1, "How narrow that region is: the higher, the narrower.") { IsLeftOutAtDefault = true };
    public static readonly ChoiceParameter On = Sides.On("compressor");

    // A reduction of 30 dB that was never known is then less than 10⁻⁵ of the gain: e⁻¹³ · 30 · ln 10 / 20.
    private const double TimesUntilForgotten = 13;

    private readonly CompressorDetector _detector;
    private readonly GainSplit[] _gains;
    private readonly GainedChannel[] _channels;
    private readonly double[] _lowest = new double[TrueLevel.MaxFrames];
    private int _untilSound;

    private Compress(Settings settings, ProcessorContext context)
    {
        var by = settings[LinkBy];
        if (by != "larger" && settings[Link] < 100)
        {
            throw new SettingsException(LinkBy, $"'link_by' is {by}, which needs a 'link_pct' of 100. Leave one of the two out.");
        }

        var isLoop = settings[Topology] == "feedback" && context.KeyChannels == 0;
        if (isLoop && settings[Times] != "as_set")
        {
            throw new SettingsException(Times, "'times' is by_crest, which needs the 'topology' feed_forward. Leave one of the two out.");
        }

        if (isLoop && settings.Find(Deep) is not null)
        {
            throw new SettingsException(Deep, "'deep_db' needs the 'topology' feed_forward. Leave one of the two out.");
        }

        var bell = settings.Find(KeyBell) is { } freq ? BiquadDesign.Bell(freq, settings[KeyBellGain], settings[KeyBellQ], context.Format.SampleRate) : [];
        var input = new KeyInput(context, settings.Find(KeyHighPass), settings.Find(KeyLowPass), hearsMid: by == "mid", bell);
        var times = new CompressorTimes(
            settings[Attack],
            settings[Release],
            settings[Detector] == "rms" ? settings[RmsTime] : null,
            settings[Hold],
            settings.Find(SlowRelease),
            settings[SlowAfter])
        {
            IsByCrest = settings[Times] == "by_crest",
            DeepDb = settings.Find(Deep),
        };
        _detector = new CompressorDetector(
            context,
            input,
            new GainComputer(settings[Threshold], settings[Ratio], settings[Knee]),
            times,
            settings[Topology] == "feedback",
            settings[Link] / 100,
            by == "sum");
        var wet = settings[Mix] / 100 * Decibels.ToGain(settings[MakeUp]);
        var dry = 1 - (settings[Mix] / 100);
        var (rate, points) = (context.Format.SampleRate, _detector.DelayPoints);
        var rates = context.Designs.Of(("gain", rate, points), () => new GainRates(rate, points));
        var ahead = TriggerTimes.Frames(settings[Ahead], context.Format.SampleRate);
        _gains = new GainSplit[_detector.Lanes];
        for (var lane = 0; lane < _gains.Length; lane++)
        {
            _gains[lane] = new GainSplit(rates);
        }

        _channels = new GainedChannel[context.Format.Channels];
        for (var channel = 0; channel < _channels.Length; channel++)
        {
            _channels[channel] = new GainedChannel(rates, ahead, wet, dry);
        }

        LatencyFrames = rates.LatencyFrames + ahead;
        TailFrames = GainedChannel.Tail(rates);
        MemoryFrames = TailFrames + input.MemoryFrames + TriggerTimes.Frames(TimesUntilForgotten * times.SumMs, context.Format.SampleRate);
        _untilSound = (rates.Moves / 2) + ahead;
        GainCurve = new GainCurve(context.Format.SampleRate, context.Frames);
    }

    public static ProcessorDefinition Definition { get; } = new(
        "compress",
        1,
        "Turns down what is louder than a threshold, by a ratio.",
        [Topology, Threshold, Ratio, Knee, Ahead, Attack, Release, Detector, RmsTime, KeyHighPass, Link, MakeUp, Mix, LinkBy, Hold, SlowRelease, SlowAfter, Times, Deep, KeyLowPass, KeyBell, KeyBellGain, KeyBellQ, On],
        static (settings, context) => OneSide.Of(On, settings, context, static (s, c) => new Compress(s, c)))
    {
        AlsoCalled = ["compressor"],
        TakesKey = true,
        IsNonLinear = true,
    };

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    public long MemoryFrames { get; }

    /// <summary>The gain of the compressed part, make-up left out; of two sides the lower. In time with the sound after the latency has
    /// been taken out.</summary>
    public GainCurve GainCurve { get; }

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var start = 0; start < block.Frames; start += TrueLevel.MaxFrames)
        {
            var frames = Math.Min(TrueLevel.MaxFrames, block.Frames - start);
            var part = block.Slice(start, frames);
            var works = _detector.Read(part, _detector.IsExternal ? key.Slice(start, frames) : AudioBlock.None);
            for (var lane = 0; lane < _gains.Length; lane++)
            {
                if (works)
                {
                    _gains[lane].Put(_detector.Reductions(lane), frames);
                }
                else
                {
                    _gains[lane].Rest(frames);
                }
            }

            Record(frames);
            for (var channel = 0; channel < part.Channels; channel++)
            {
                _channels[channel].Process(part[channel], _gains[Math.Min(channel, _gains.Length - 1)]);
            }

            foreach (var gain in _gains)
            {
                gain.Advance(frames);
            }
        }
    }

    private void Record(int frames)
    {
        var gains = _gains[0].Curve(frames);
        if (_gains.Length > 1)
        {
            var lowest = _lowest.AsSpan(0, gains.Length);
            gains.CopyTo(lowest);
            StretchMath.Lower(lowest, _gains[1].Curve(frames));
            gains = lowest;
        }

        var skipped = Math.Min(_untilSound, frames);
        _untilSound -= skipped;
        GainCurve.Add(gains[skipped..frames]);
    }
}
