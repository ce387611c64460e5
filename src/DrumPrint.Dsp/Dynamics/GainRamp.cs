using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Moves a gain to another in an exact number of frames.</summary>
/// <remarks>It moves along a raised cosine, which has no corner and is half open half-way. A gate's fall goes along a
/// straight line in dB instead, the way a sound dies away.</remarks>
/// <param name="gain">Where it stands, above 0.</param>
/// <param name="fallsStraight">Whether a fall is a straight line in dB.</param>
internal sealed class GainRamp(double gain, bool fallsStraight)
{
    private double _gain = gain;
    private double _from = gain;
    private double _target = gain;
    private RampTime _time;
    private int _elapsed;
    private double _next;
    private double _factor;
    private double _cosine;
    private double _sine;

    /// <summary>Sets out for a gain above 0 from where it stands.</summary>
    /// <param name="target">Gain to reach.</param>
    /// <param name="time">Frames to take; the target holds from then on.</param>
    /// <param name="elapsed">Frames of them already over at the next frame: 0 or 1.</param>
    public void Begin(double target, RampTime time, int elapsed)
    {
        (_from, _target, _time, _elapsed) = (_gain, target, time, elapsed);
        if (fallsStraight && target < _from && time.Frames > 0)
        {
            _factor = Elementary.Exp(Elementary.Log(target / _from) / time.Frames);
            _next = elapsed == 0 ? _from : _from * _factor;
        }

        (_cosine, _sine) = elapsed == 0 ? (1, 0) : (time.Cosine, time.Sine);
    }

    /// <summary>Writes the gains of the next frames.</summary>
    public void Fill(Span<double> gains)
    {
        var moving = Math.Min(gains.Length, Math.Max(0, _time.Frames - _elapsed));
        if (moving > 0)
        {
            _elapsed += moving;
            if (fallsStraight && _target < _from)
            {
                FallStraight(gains[..moving]);
            }
            else
            {
                FollowCosine(gains[..moving]);
            }

            _gain = gains[moving - 1];
        }

        if (moving < gains.Length)
        {
            _gain = _target;
            gains[moving..].Fill(_target);
        }
    }

    private void FollowCosine(Span<double> gains)
    {
        var half = (_target - _from) / 2;
        var middle = _from + half;
        var (cosine, sine) = (_cosine, _sine);
        var (turnCosine, turnSine) = (_time.Cosine, _time.Sine);
        foreach (ref var gain in gains)
        {
            gain = Math.FusedMultiplyAdd(-half, cosine, middle);
            (cosine, sine) = (
                Math.FusedMultiplyAdd(cosine, turnCosine, -sine * turnSine),
                Math.FusedMultiplyAdd(sine, turnCosine, cosine * turnSine));
        }

        (_cosine, _sine) = (cosine, sine);
    }

    private void FallStraight(Span<double> gains)
    {
        var (next, factor) = (_next, _factor);
        foreach (ref var gain in gains)
        {
            gain = next;
            next *= factor;
        }

        _next = next;
    }
}
