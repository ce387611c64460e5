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
    private readonly double[] _wholePowers = new double[MaxFrames];
    private readonly double[] _brightPowers = new double[MaxFrames];
    private readonly double[] _wholeScores = new double[MaxFrames];
    private readonly double[] _brightScores = new double[MaxFrames];
    private readonly double[] _wholeSteepness = new double[MaxFrames];
    private readonly double[] _brightSteepness = new double[MaxFrames];
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
        while (room < _gap + _whole.StrayFrames + 1 + MaxFrames)
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
        var whole = _wholePowers.AsSpan(0, block.Frames);
        var bright = _brightPowers.AsSpan(0, block.Frames);
        whole.Clear();
        bright.Clear();
        for (var channel = 0; channel < _heard.Length; channel++)
        {
            var heard = _heard[channel].AsSpan(0, block.Frames);
            _input.Read(block, key, channel, heard);
            _last[channel] = Raise(whole, bright, heard, _last[channel]);
        }

        var scores = _wholeScores.AsSpan(0, block.Frames);
        var steepness = _wholeSteepness.AsSpan(0, block.Frames);
        _whole.Follow(whole, scores, steepness);
        _bright.Follow(bright, _brightScores.AsSpan(0, block.Frames), _brightSteepness.AsSpan(0, block.Frames));
        for (var n = 0; n < scores.Length; n++)
        {
            scores[n] = Math.Max(scores[n], _brightScores[n]);
            _scores[(_frame + n) & _mask] = scores[n];
            _steepness[(_frame + n) & _mask] = Math.Max(steepness[n], _brightSteepness[n]);
        }

        _surest.Follow(scores);
        return Find(scores);
    }

    // Powers of the wave and of its differences, where they are higher than those of other channels.
    private static double Raise(Span<double> whole, Span<double> bright, ReadOnlySpan<double> heard, double last)
    {
        whole = whole[..heard.Length];
        bright = bright[..heard.Length];
        for (var n = 0; n < heard.Length; n++)
        {
            var sample = heard[n];
            var difference = sample - last;
            whole[n] = Math.Max(whole[n], sample * sample);
            bright[n] = Math.Max(bright[n], difference * difference);
            last = sample;
        }

        return last;
    }

    // A hit is where nothing within the gap is surer.
    private ReadOnlySpan<long> Find(ReadOnlySpan<double> surest)
    {
        var count = 0;
        for (var n = 0; n < surest.Length; n++)
        {
            var place = _frame + n - _gap;
            var middle = _scores[place & _mask];
            if (middle != 0 && middle >= surest[n] && place - _lastHit > _gap)
            {
                _lastHit = place;
                _found[count++] = Steepest(place) - _whole.DelayFrames;
            }
        }

        _frame += surest.Length;
        return _found.AsSpan(0, count);
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
