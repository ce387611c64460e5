using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Layering;

/// <summary>Finds hits in a signal or a key as it comes in.</summary>
/// <remarks>It looks at the wave and at its differences from frame to frame, which rise by 6 dB per octave: a soft bright hit shows in them
/// while a low drum still rings. Of several beginnings within the gap the surest and loudest one is the hit, whichever came first. So nothing
/// hangs on what was before.</remarks>
internal sealed class HitDetector
{
    /// <summary>Longest stretch that is read at once.</summary>
    public const int MaxFrames = 256;

    private readonly KeyInput _input;
    private readonly RiseLine _whole;
    private readonly RiseLine _bright;
    private readonly RunningMaximum _surest;
    private readonly double[] _scores;
    private readonly double[] _steepness;
    private readonly long _mask;
    private readonly int _gap;
    private readonly double[][] _heard;
    private readonly double[] _last;
    private readonly long[] _found = new long[MaxFrames];
    private long _frame;
    private long _lastHit = long.MinValue / 2;

    /// <param name="input">What is listened to.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="openDb">Peak level that a hit reaches.</param>
    /// <param name="riseDb">How far it stands above what was before.</param>
    /// <param name="gapMs">Hits closer than this are one.</param>
    public HitDetector(KeyInput input, int sampleRate, double openDb, double riseDb, double gapMs)
    {
        _input = input;
        var (open, rise) = (Decibels.ToGain(2 * openDb), Decibels.ToGain(2 * riseDb));
        (_whole, _bright) = (new RiseLine(sampleRate, rise, open), new RiseLine(sampleRate, rise, open));
        _gap = Math.Max(1, TriggerTimes.Frames(gapMs, sampleRate));
        _surest = new RunningMaximum((2 * _gap) + 1);
        var room = 1L;
        while (room < _gap + _whole.StrayFrames + 1)
        {
            room *= 2;
        }

        (_scores, _steepness, _mask) = (new double[room], new double[room], room - 1);
        _heard = new double[input.Channels][];
        for (var channel = 0; channel < _heard.Length; channel++)
        {
            _heard[channel] = new double[MaxFrames];
        }

        _last = new double[input.Channels];
    }

    /// <summary>Whether another signal is listened to.</summary>
    public bool IsExternal => _input.IsExternal;

    /// <summary>Frames by which a hit is found late, at most.</summary>
    public int DelayFrames => _whole.DelayFrames + _gap + _whole.StrayFrames;

    /// <summary>Frames after which what came earlier counts no more.</summary>
    public long MemoryFrames => _input.MemoryFrames + _whole.MemoryFrames + (3L * (_gap + _whole.StrayFrames));

    /// <summary>Reads a stretch.</summary>
    /// <returns>The frames in which hits begin, each once, in order.</returns>
    public ReadOnlySpan<long> Read(AudioBlock block, AudioBlock key)
    {
        for (var channel = 0; channel < _heard.Length; channel++)
        {
            _input.Read(block, key, channel, _heard[channel].AsSpan(0, block.Frames));
        }

        var count = 0;
        for (var n = 0; n < block.Frames; n++)
        {
            var (whole, bright) = (0.0, 0.0);
            for (var channel = 0; channel < _heard.Length; channel++)
            {
                var sample = _heard[channel][n];
                var difference = sample - _last[channel];
                whole = Math.Max(whole, sample * sample);
                bright = Math.Max(bright, difference * difference);
                _last[channel] = sample;
            }

            var score = Math.Max(_whole.Next(whole), _bright.Next(bright));
            _steepness[_frame & _mask] = Math.Max(_whole.Steepness, _bright.Steepness);
            if (IsHit(score))
            {
                _found[count++] = Steepest(_frame - 1 - _gap) - _whole.DelayFrames;
            }
        }

        return _found.AsSpan(0, count);
    }

    private bool IsHit(double score)
    {
        var surest = _surest.Next(score);
        _scores[_frame & _mask] = score;
        var place = _frame++ - _gap;
        var middle = _scores[place & _mask];
        if (middle == 0 || middle < surest || place - _lastHit <= _gap)
        {
            return false;
        }

        _lastHit = place;
        return true;
    }

    // The surest place hangs on how a hit grows; the steepest one is where it begins.
    private long Steepest(long place)
    {
        var best = place;
        var stray = _whole.StrayFrames;
        for (var at = place - stray; at <= place + Math.Min(stray, _gap); at++)
        {
            best = _steepness[at & _mask] > _steepness[best & _mask] ? at : best;
        }

        return best;
    }
}
