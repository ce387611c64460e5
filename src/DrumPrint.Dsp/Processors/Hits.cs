using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Raises or lowers the beginnings and the bodies of hits, loud and soft ones alike.</summary>
/// <remarks>There is no threshold: see <see cref="HitShape"/>. Both sides share one gain. It follows decibels rounded off by
/// <see cref="ExactSmoother"/>, and is ready when the hit comes.</remarks>
public sealed class Hits : IProcessor, IGainReducer
{
    public static readonly NumberParameter Begin = new("begin_db", Unit.Decibels, -24, 24, 0, "How much louder the beginnings of hits become or, below zero, softer.") { IsInExample = true };
    public static readonly NumberParameter Body = new("body_db", Unit.Decibels, -24, 24, 0, "How much louder what rings on after becomes or, below zero, softer.") { IsInExample = true };
    public static readonly NumberParameter BeginTime = new("begin_ms", Unit.Milliseconds, 1, 200, 25, "After how long half of the beginning's change is left, while the level stands.");
    public static readonly NumberParameter BodyTime = new("body_ms", Unit.Milliseconds, 20, 2000, 300, "How slowly a sound has to die away to count as steady: what falls faster is a body.");
    public static readonly NumberParameter Ahead = new("look_ahead_ms", Unit.Milliseconds, 0.5, 10, 1.5, "How long before a hit the gain starts to move. The print stays in time.");
    public static readonly NumberParameter KeyHighPass = new("key_high_pass_hz", Unit.Hertz, 10, 20000, null, "Makes the key deaf to what is below, 12 dB per octave.");
    public static readonly NumberParameter KeyLowPass = new("key_low_pass_hz", Unit.Hertz, 20, 20000, null, "Makes the key deaf to what is above, 12 dB per octave.");

    private readonly KeyedGain _gain;
    private readonly HitShape _shape;
    private readonly ExactSmoother _smoother;
    private readonly double _begin;
    private readonly double _body;
    private readonly double[] _beginnings = new double[LaneWidth.Whole(LinkedPeak.MaxFrames)];
    private readonly double[] _bodies = new double[LaneWidth.Whole(LinkedPeak.MaxFrames)];

    private Hits(Settings settings, ProcessorContext context)
    {
        var rate = context.Format.SampleRate;
        _begin = settings[Begin] / HitShape.FullDb;
        _body = settings[Body] / HitShape.FullDb;
        var input = new KeyInput(context, settings.Find(KeyHighPass), settings.Find(KeyLowPass));
        _shape = new HitShape(settings[BeginTime], settings[BodyTime], rate);
        _smoother = new ExactSmoother(TriggerTimes.Frames(settings[Ahead], rate));
        _gain = new KeyedGain(context, new LinkedPeak(input, rate, isFine: true), _smoother.Length - 1, Follow);
        MemoryFrames = input.MemoryFrames + LatencyFrames + _shape.MemoryFrames;
    }

    public static ProcessorDefinition Definition { get; } = new(
        "hits",
        1,
        "Raises or lowers the beginnings and the bodies of hits, whatever their level.",
        [Begin, Body, BeginTime, BodyTime, Ahead, KeyHighPass, KeyLowPass],
        static (settings, context) => new Hits(settings, context))
    {
        AlsoCalled = ["transient", "attack", "envelope"],
        TakesKey = true,
        IsNonLinear = true,
    };

    public int LatencyFrames => _gain.LatencyFrames;

    public long MemoryFrames { get; }

    /// <summary>The gain over time, in time with the sound after the latency has been taken out.</summary>
    public GainCurve GainCurve => _gain.Curve;

    public void Process(AudioBlock block, AudioBlock key) => _gain.Process(block, key);

    // Squared levels to gains.
    private void Follow(Span<double> gains, int frames)
    {
        var beginnings = _beginnings.AsSpan(0, gains.Length);
        var bodies = _bodies.AsSpan(0, gains.Length);
        _shape.Follow(gains[..frames], beginnings, bodies);
        DecibelKernel.AmplitudeToDecibels(beginnings);
        DecibelKernel.AmplitudeToDecibels(bodies);
        for (var n = 0; n < frames; n++)
        {
            // A reduction is what the kernel takes.
            gains[n] = -Math.FusedMultiplyAdd(_begin, beginnings[n], _body * bodies[n]);
        }

        _smoother.Follow(gains[..frames]);
        DecibelKernel.ReductionToGain(gains);
    }
}
