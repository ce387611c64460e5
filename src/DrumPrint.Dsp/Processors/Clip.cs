using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Saturation;

namespace DrumPrint.Dsp.Processors;

/// <summary>Cuts off what stands above a ceiling, with a corner or a bend; nothing passes it in true peak.</summary>
/// <remarks>The curves are those of <c>saturate</c>, between the same oversampling filters, and fold as little. What those filters put
/// above the ceiling again is turned down as <c>limit</c> does: see <see cref="CeilingPasses"/>.</remarks>
public sealed class Clip : IProcessor, IGainReducer
{
    public static readonly NumberParameter Top = new("ceiling_dbtp", Unit.DecibelsTruePeak, -60, 0, -1, "True peak that the wave never passes.") { IsInExample = true };
    public static readonly NumberParameter Drive = new("drive_db", Unit.Decibels, -24, 48, 0, "Level into the curve; quiet passages come out this much louder.") { IsInExample = true };
    public static readonly NumberParameter Soft = new("soft_pct", Unit.Percent, 0, 100, 0, "From a corner at 0 to a long bend at 100.") { IsInExample = true };
    public static readonly NumberParameter Factor = new("oversampling", Unit.None, 2, 16, 8, "How many times the sample rate is raised around the curve.") { Steps = [2, 4, 8, 16] };

    // The curve ends a little lower than the passes begin to work, so that they have only what the filters add.
    private const double UnderDb = 0.15;
    // −2000 dB: the curve's own figures would become subnormal numbers.
    private const double Nothing = 1e-100;
    private const double AheadMs = 2;
    private const double HoldMs = 15;
    private const double ReleaseMs = 60;

    private readonly double _gainIn;
    private readonly double _gainOut;
    private readonly Oversampler _oversampler;
    private readonly MixedCurves _curve;
    private readonly CeilingPasses _passes;

    private Clip(Settings settings, ProcessorContext context)
    {
        var (format, factor) = (context.Format, (int)settings[Factor]);
        _gainOut = Decibels.ToGain(settings[Top] - UnderDb);
        _gainIn = Decibels.ToGain(settings[Drive]) / _gainOut;
        _curve = new MixedCurves(settings[Soft] / 100, factor, format.Channels);
        var design = context.Designs.Of(
            ("clip", factor, format.SampleRate),
            () => new OversamplerDesign(factor, format.SampleRate, CurveStage<SoftCurve>.Delay, f => 1 / CurveStage<SoftCurve>.GainAt(f / factor), cancels: true));
        _oversampler = new Oversampler(design, format.Channels);
        _passes = new CeilingPasses(context, settings[Top], AheadMs, HoldMs, ReleaseMs, link: 1);
        _passes.BeginAfter(_oversampler.LatencyFrames);
    }

    public static ProcessorDefinition Definition { get; } = new(
        "clip",
        1,
        "Cuts off what stands above a ceiling, hard or soft; nothing passes it in true peak.",
        [Top, Drive, Soft, Factor],
        static (settings, context) => new Clip(settings, context))
    {
        AlsoCalled = ["clipper", "clipping"],
        IsNonLinear = true,
        IsCostly = true,
    };

    public int LatencyFrames => _oversampler.LatencyFrames + _passes.LatencyFrames;

    public long TailFrames => _oversampler.LatencyFrames + _passes.TailFrames;

    public long MemoryFrames => _oversampler.LatencyFrames + _passes.MemoryFrames;

    /// <summary>By how much what the filters add was turned down; what the curve cuts off is no gain.</summary>
    public GainCurve GainCurve => _passes.GainCurve;

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var start = 0; start < block.Frames; start += PhaseBuffer.MaxFrames)
        {
            var stretch = block.Slice(start, Math.Min(block.Frames - start, PhaseBuffer.MaxFrames));
            for (var c = 0; c < stretch.Channels; c++)
            {
                Blend.Copy(stretch[c], _gainIn, stretch[c]);
                Flush(stretch[c]);
            }

            _oversampler.Process(stretch, _curve);
            for (var c = 0; c < stretch.Channels; c++)
            {
                Blend.Copy(stretch[c], _gainOut, stretch[c]);
            }

            _passes.Process(stretch);
        }
    }

    private static void Flush(Span<double> samples)
    {
        foreach (ref var sample in samples)
        {
            sample = Math.Abs(sample) < Nothing ? 0 : sample;
        }
    }
}
