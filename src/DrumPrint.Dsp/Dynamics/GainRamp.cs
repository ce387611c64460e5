using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Moves a gain to another in an exact number of frames.</summary>
/// <remarks>Up it goes along a raised cosine, which is open early and has no corner; down along a straight line in dB,
/// the way a sound dies away.</remarks>
internal sealed class GainRamp(double gain)
{
    private double _target = gain;
    private double _from = gain;
    private double _gain = gain;
    private double _next;
    private int _frames;
    private int _elapsed;
    private double _factor;
    private double _cosine;
    private double _sine;
    private double _turnCosine;
    private double _turnSine;

    /// <summary>Sets out for a gain above 0 from where the gain stands.</summary>
    /// <param name="target">Gain to reach.</param>
    /// <param name="frames">Frames to take; the target holds from then on.</param>
    /// <param name="elapsed">Frames of them already over at the next frame: 0 or 1.</param>
    public void Begin(double target, int frames, int elapsed)
    {
        (_from, _target, _frames, _elapsed) = (_gain, target, frames, elapsed);
        if (frames == 0 || target == _from)
        {
            _frames = 0;
            return;
        }

        (_turnSine, _turnCosine) = Elementary.SinCos(Math.PI / frames);
        (_cosine, _sine) = elapsed == 0 ? (1, 0) : (_turnCosine, _turnSine);
        _factor = Elementary.Exp(Elementary.Log(target / _from) / frames);
        _next = elapsed == 0 ? _from : _from * _factor;
    }

    /// <summary>Writes the gains of the next frames.</summary>
    public void Fill(Span<double> gains)
    {
        var moving = Math.Min(gains.Length, Math.Max(0, _frames - _elapsed));
        if (moving > 0)
        {
            _elapsed += moving;
            if (_target > _from)
            {
                Rise(gains[..moving]);
            }
            else
            {
                Fall(gains[..moving]);
            }
        }

        if (moving < gains.Length)
        {
            _gain = _target;
            gains[moving..].Fill(_target);
        }
    }

    private void Rise(Span<double> gains)
    {
        var half = (_target - _from) / 2;
        var middle = _from + half;
        foreach (ref var gain in gains)
        {
            gain = Math.FusedMultiplyAdd(-half, _cosine, middle);
            var cosine = Math.FusedMultiplyAdd(_cosine, _turnCosine, -_sine * _turnSine);
            _sine = Math.FusedMultiplyAdd(_sine, _turnCosine, _cosine * _turnSine);
            _cosine = cosine;
        }

        _gain = gains[^1];
    }

    private void Fall(Span<double> gains)
    {
        foreach (ref var gain in gains)
        {
            gain = _next;
            _next *= _factor;
        }

        _gain = gains[^1];
    }
}
