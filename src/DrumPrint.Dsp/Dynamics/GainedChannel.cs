using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Holds one channel back until its gain is known and applies the gain's slow and fast part.</summary>
internal sealed class GainedChannel
{
    // Frames over which a filter keeps partial sums, at most.
    private const int PartialFrames = 4;

    private readonly double _wet;
    private readonly double _all;
    private readonly int _delay;
    private readonly int _beforeUp;
    private readonly PhaseFilter _up;
    private readonly PhaseFilter _down;
    private readonly PhaseBuffer _raised = new(2, 0, 1);
    private readonly PhaseBuffer _lowered = new(1, 0, 1);
    private readonly double[] _line;
    private readonly double[] _gains = new double[PhaseBuffer.MaxFrames];
    private readonly int _downMemory;
    private int _framesWithoutFast;
    private bool _isUpBehind = true;

    /// <param name="rates">The responses.</param>
    /// <param name="aheadFrames">Look-ahead.</param>
    /// <param name="wet">Part of the signal with the gain.</param>
    /// <param name="dry">Part without.</param>
    public GainedChannel(GainRates rates, int aheadFrames, double wet, double dry)
    {
        (_wet, _all) = (wet, wet + dry);
        _delay = rates.LatencyFrames + aheadFrames;
        _beforeUp = rates.SoundDelayFrames + aheadFrames;
        _up = PhaseFilter.Doubling(rates.Up, 1, 1);
        _down = PhaseFilter.Halving(rates.Down, 2, 1);
        _line = new double[_delay + PhaseBuffer.MaxFrames];
        _downMemory = _down.Input.History + PartialFrames;
        _framesWithoutFast = _downMemory;
    }

    /// <summary>Frames of the sound that the gain's fast part reaches past the latency.</summary>
    public static int Tail(GainRates rates) => ((rates.Up.Length + rates.Down.Length) / 4) + 2;

    /// <summary>Processes a stretch in place, whose gain has just been put in.</summary>
    public void Process(Span<double> samples, GainSplit gain)
    {
        var frames = samples.Length;
        samples.CopyTo(_line.AsSpan(_delay));
        if (gain.HasFast)
        {
            Raise(frames);
        }
        else
        {
            _isUpBehind = true;
        }

        _line.AsSpan(0, frames).CopyTo(samples);
        _line.AsSpan(frames, _delay).CopyTo(_line);
        if (gain.IsAtRest)
        {
            if (_all != 1)
            {
                Multiply(samples, _all);
            }
        }
        else
        {
            var gains = _gains.AsSpan(0, frames);
            gain.TakeSlow(gains);
            StretchMath.Mix(_gains.AsSpan(0, LaneWidth.Whole(frames)), -_wet, _all);
            StretchMath.Scale(samples, gains);
        }

        ApplyFast(samples, gain);
    }

    // The way up is only gone where there is something to apply; what it would remember is in the line.
    private void Raise(int frames)
    {
        var start = _delay - _beforeUp;
        if (_isUpBehind)
        {
            var before = _up.Input.History + PartialFrames;
            _line.AsSpan(start - before, before).CopyTo(_up.Input.Row(0, before));
            _up.Run(_raised, before);
            _isUpBehind = false;
        }

        _line.AsSpan(start, frames).CopyTo(_up.Input.Row(0, frames));
        _up.Run(_raised, frames);
    }

    private void ApplyFast(Span<double> samples, GainSplit gain)
    {
        var frames = samples.Length;
        if (gain.HasFast)
        {
            _framesWithoutFast = 0;
            gain.ApplyFast(_raised, _down.Input, frames);
        }
        else
        {
            if (_framesWithoutFast >= _downMemory)
            {
                return;
            }

            _framesWithoutFast += frames;
            _down.Input.Row(0, frames).Clear();
            _down.Input.Row(1, frames).Clear();
        }

        _down.Run(_lowered, frames);
        StretchMath.AddFused(samples, _lowered.Row(0, frames), -_wet);
    }

    private static void Multiply(Span<double> samples, double factor)
    {
        foreach (ref var sample in samples)
        {
            sample *= factor;
        }
    }
}
