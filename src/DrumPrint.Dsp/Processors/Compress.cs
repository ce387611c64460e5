using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Turns down what is louder than a threshold, by a ratio.</summary>
/// <remarks>Source: Giannoulis, Massberg and Reiss, "Digital Dynamic Range Compressor Design – A Tutorial and Analysis",
/// JAES 60(6), 2012: their static curve, with the smooth decoupled detector after it, in decibels.
/// See <see cref="GainComputer"/>, <see cref="Ballistics"/> and <see cref="FeedbackLoop"/>.</remarks>
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

    public static readonly NumberParameter Threshold = new("threshold_db", Unit.Decibels, -80, 20, -20, "Level above which the signal is turned down.");
    public static readonly NumberParameter Ratio = new("ratio", Unit.None, 1, 100, 4, "How many dB above the threshold go in for one dB that comes out.");
    public static readonly NumberParameter Knee = new("knee_db", Unit.Decibels, 0, 36, 6, "Width of the soft bend around the threshold; 0 is a corner.");
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
    public static readonly NumberParameter MakeUp = new("make_up_db", Unit.Decibels, -40, 40, 0, "Level added after the compression.");
    public static readonly NumberParameter Mix = new("mix_pct", Unit.Percent, 0, 100, 100, "Part of the compressed signal; the rest is the untouched one.");

    private const int ChunkFrames = 256;

    private readonly CompressorDetector _detector;
    private readonly double _dry;
    private readonly double _wet;
    private readonly bool _isPlain;

    private Compress(Settings settings, ProcessorContext context)
    {
        _detector = new CompressorDetector(
            context,
            new KeyInput(context, settings.Find(KeyHighPass), null),
            new GainComputer(settings[Threshold], settings[Ratio], settings[Knee]),
            new CompressorTimes(settings[Attack], settings[Release], settings[Detector] == "rms" ? settings[RmsTime] : null),
            settings[Topology] == "feedback",
            settings[Link] / 100,
            ChunkFrames);
        _wet = settings[Mix] / 100 * Decibels.ToGain(settings[MakeUp]);
        _dry = 1 - (settings[Mix] / 100);
        _isPlain = _wet == 1 && _dry == 0;
        GainCurve = new GainCurve(context.Format.SampleRate, context.Frames);
    }

    public static ProcessorDefinition Definition { get; } = new(
        "compress",
        1,
        "Turns down what is louder than a threshold, by a ratio.",
        [Topology, Threshold, Ratio, Knee, Attack, Release, Detector, RmsTime, KeyHighPass, Link, MakeUp, Mix],
        static (settings, context) => new Compress(settings, context))
    {
        AlsoCalled = ["compressor", "limiter"],
        TakesKey = true,
        IsNonLinear = true,
    };

    /// <summary>The gain of the compressed part, make-up left out; of two sides the lower.</summary>
    public GainCurve GainCurve { get; }

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var start = 0; start < block.Frames; start += ChunkFrames)
        {
            var frames = Math.Min(ChunkFrames, block.Frames - start);
            var part = block.Slice(start, frames);
            _detector.Read(part, _detector.IsExternal ? key.Slice(start, frames) : AudioBlock.None);
            GainCurve.Add(_detector.LowestGain(frames));
            Apply(part);
        }
    }

    private void Apply(AudioBlock block)
    {
        for (var channel = 0; channel < block.Channels; channel++)
        {
            var gains = _detector.Gain(channel, block.Frames);
            if (channel < _detector.Lanes && !_isPlain)
            {
                StretchMath.Mix(gains, _wet, _dry);
            }

            StretchMath.Scale(block[channel], gains);
        }
    }
}
