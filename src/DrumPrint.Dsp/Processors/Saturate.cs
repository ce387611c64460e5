using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Saturation;

namespace DrumPrint.Dsp.Processors;

/// <summary>Drives the signal into a curve that rounds off or cuts off what is loud; no ceiling.</summary>
/// <remarks>
/// At any bias, small signals leave at the level they went in, plus drive. There is one exception: at the very ends of
/// the bias the hard curve stands on its corner and cuts one side. The curve works between oversampling filters on the
/// mean between samples (see <see cref="ICurve"/>). A bias also bends loud passages off centre. A first-order high-pass
/// at 2 Hz takes that slow shift out. It is there only when there is a bias.
/// </remarks>
public sealed class Saturate : IProcessor
{
    public static readonly ChoiceParameter Shape = new(
        "shape",
        [
            new("soft", "Bends gently from the start."),
            new("cubic", "Third harmonic alone, until it meets its ceiling."),
            new("hard", "Untouched up to full scale, then cut off."),
        ],
        "soft",
        "The curve the signal is driven into.");

    public static readonly NumberParameter Drive = new("drive_db", Unit.Decibels, -24, 48, 0, "Level into the curve; quiet passages come out this much louder.");
    public static readonly NumberParameter Bias = new("bias_pct", Unit.Percent, -100, 100, 0, "Shifts the working point off centre and adds even harmonics.");
    public static readonly NumberParameter Factor = new("oversampling", Unit.None, 2, 16, 8, "How many times the sample rate is raised around the curve.") { Steps = [2, 4, 8, 16] };
    public static readonly NumberParameter Output = new("output_db", Unit.Decibels, -48, 24, 0, "Level of the driven sound after the curve, before the mix.");
    public static readonly NumberParameter Mix = new("mix_pct", Unit.Percent, 0, 100, 100, "How much of the driven sound; the rest is the untouched one.");

    public static readonly ChoiceParameter On = Sides.On("curve");

    private const double CentreHz = 2;

    private readonly double _gainIn;
    private readonly Oversampler _oversampler;
    private readonly IOversampledStage _curve;
    private readonly ChannelCascade? _centre;
    private readonly DryPath[] _dry;

    private Saturate(Settings settings, ProcessorContext context)
    {
        var format = context.Format;
        var drive = Decibels.ToGain(settings[Drive]);
        var bias = settings[Bias] / 100;
        var factor = (int)settings[Factor];
        (_curve, _gainIn, var gainOut, var gain) = settings[Shape] switch
        {
            "cubic" => Stage<CubicCurve>(drive, bias, format.Channels),
            "hard" => Stage<HardCurve>(drive, bias, format.Channels),
            _ => Stage<SoftCurve>(drive, bias, format.Channels),
        };

        var design = context.Designs.Of(
            ("saturate", settings[Shape], factor, format.SampleRate),
            () => new OversamplerDesign(factor, format.SampleRate, CurveStage<SoftCurve>.Delay, f => 1 / gain(f / factor), cancels: true));
        _oversampler = new Oversampler(design, format.Channels);
        _centre = bias == 0 ? null : new ChannelCascade(BiquadDesign.HighPass(CentreHz, 1, format.SampleRate), format.Channels);
        _dry = DryPath.ForEach(format.Channels, LatencyFrames, Decibels.ToGain(settings[Output]) * gainOut, settings[Mix]);
    }

    public static ProcessorDefinition Definition { get; } = new(
        "saturate",
        1,
        "Drives the signal into a curve that rounds off or cuts off what is loud; its peaks may still pass full scale.",
        [Shape, Drive, Bias, Factor, Output, Mix, On],
        static (settings, context) => OneSide.Of(On, settings, context, static (s, c) => new Saturate(s, c)))
    {
        AlsoCalled = ["distortion", "overdrive"],
        IsNonLinear = true,
        IsCostly = true,
        HasSeparateChannels = static settings => settings[On] == Sides.Both,
    };

    public int LatencyFrames => _oversampler.LatencyFrames;

    public long TailFrames => LatencyFrames + (_centre?.TailFrames ?? 0);

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var start = 0; start < block.Frames; start += PhaseBuffer.MaxFrames)
        {
            var stretch = block.Slice(start, Math.Min(block.Frames - start, PhaseBuffer.MaxFrames));
            for (var c = 0; c < _dry.Length; c++)
            {
                _dry[c].Keep(stretch[c]);
                Blend.Copy(stretch[c], _gainIn, stretch[c]);
            }

            _oversampler.Process(stretch, _curve);
            _centre?.Process(stretch);
            for (var c = 0; c < _dry.Length; c++)
            {
                _dry[c].Blend(stretch[c]);
            }
        }
    }

    private static (IOversampledStage Stage, double GainIn, double GainOut, Func<double, double> GainAt) Stage<TCurve>(double drive, double bias, int channels)
        where TCurve : struct, ICurve
    {
        var stage = new CurveStage<TCurve>(drive, bias, channels);
        return (stage, stage.GainIn, stage.GainOut, CurveStage<TCurve>.GainAt);
    }
}
