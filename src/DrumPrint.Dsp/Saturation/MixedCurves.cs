using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>A part of the soft curve and the rest of the hard one: from a corner to a long bend, under one ceiling of 1.</summary>
internal sealed class MixedCurves : IOversampledStage
{
    private readonly CurveStage<HardCurve> _hard;
    private readonly CurveStage<SoftCurve> _soft;
    private readonly PhaseBuffer _bent;
    private readonly double _part;

    /// <param name="softPart">Part of the soft curve, 0 to 1.</param>
    /// <param name="factor">How many times the rate is raised.</param>
    /// <param name="channels">Channels, side by side.</param>
    public MixedCurves(double softPart, int factor, int channels)
    {
        _part = softPart;
        _hard = new CurveStage<HardCurve>(1, 0, channels);
        _soft = new CurveStage<SoftCurve>(1, 0, channels);
        _bent = new PhaseBuffer(factor, 0, channels);
    }

    public void Bend(PhaseBuffer input, PhaseBuffer output, int frames)
    {
        if (_part == 0)
        {
            _hard.Bend(input, output, frames);
            return;
        }

        _soft.Bend(input, output, frames);
        if (_part == 1)
        {
            return;
        }

        _hard.Bend(input, _bent, frames);
        for (var phase = 0; phase < input.Phases; phase++)
        {
            StretchMath.Approach(output.Row(phase, frames), _bent.Row(phase, frames), 1 - _part);
        }
    }
}
