using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Listens to a signal or key and says by how much a compressor turns down each channel.</summary>
/// <remarks>With full link, or one thing to listen to, there is one lane whose level is that of the louder channel. Otherwise
/// left and right have a lane each, drawn towards the one that asks for more: by the link's part of the difference in
/// dB, before attack and release. More than two channels are always fully linked.</remarks>
internal sealed class CompressorDetector
{
    // Just below the foot of the knee, so that what is under it surely asks for nothing.
    private const double Hair = 1 - 1e-9;

    private readonly KeyInput _input;
    private readonly GainComputer _computer;
    private readonly PowerAverage[] _averages;
    private readonly double _quiet;
    private readonly ReductionFollower? _follower;
    private readonly FeedbackLoop? _loop;
    private readonly double _link;
    private readonly double[][] _levels;
    private readonly double[][] _gains;
    private readonly double[] _lowest;

    public CompressorDetector(
        ProcessorContext context,
        KeyInput input,
        GainComputer computer,
        CompressorTimes times,
        bool isFeedback,
        double link,
        int chunkFrames)
    {
        _input = input;
        _computer = computer;
        _link = link;
        var rate = context.Format.SampleRate;
        var lanes = link < 1 && input.Channels == 2 && context.Format.Channels == 2 ? 2 : 1;
        var foot = Decibels.ToGain(computer.Foot) * Hair;
        _quiet = times.RmsMs is null ? foot : foot * foot;
        _averages = times.RmsMs is { } rmsMs ? Make(input.Channels, () => new PowerAverage(TimeConstant.PerFrame(rmsMs, rate))) : [];

        // An output is heard one frame late, so a loop's own times are that much shorter.
        var isLoop = isFeedback && !input.IsExternal;
        var late = isLoop ? 1 : 0;
        var ballistics = new Ballistics((times.AttackMs * rate / 1000) - late, (times.ReleaseMs * rate / 1000) - late);
        _loop = isLoop ? new FeedbackLoop(ballistics, computer.Foot, lanes == 1 ? 0 : link) : null;
        _follower = isLoop ? null : new ReductionFollower(ballistics);
        var room = DecibelKernel.WholeVectors(chunkFrames);
        _levels = Make(input.Channels, () => new double[room]);
        _gains = Make(lanes, () => new double[room]);
        _lowest = new double[room];
    }

    /// <summary>Whether another signal is listened to.</summary>
    public bool IsExternal => _input.IsExternal;

    /// <summary>Separate gains: 1 for all channels, or one for each of two.</summary>
    public int Lanes => _gains.Length;

    private bool IsAtRest => _follower?.IsAtRest ?? _loop!.IsAtRest;

    /// <summary>Works out the gains for a chunk.</summary>
    public void Read(AudioBlock block, AudioBlock key)
    {
        var frames = block.Frames;
        var room = DecibelKernel.WholeVectors(frames);
        Listen(block, key, room);
        var isQuiet = true;
        for (var lane = 0; lane < _gains.Length; lane++)
        {
            isQuiet &= LevelScan.FirstAtLeast(_levels[lane].AsSpan(0, frames), _quiet) == frames;
        }

        if (isQuiet && IsAtRest)
        {
            foreach (var gains in _gains)
            {
                gains.AsSpan(0, room).Fill(1);
            }

            return;
        }

        if (isQuiet)
        {
            AskNothing(room);
        }
        else
        {
            Ask(room);
        }

        Follow(frames, room);
        foreach (var gains in _gains)
        {
            DecibelKernel.ReductionToGain(gains.AsSpan(0, room));
        }
    }

    /// <summary>The gain of a channel over the chunk last read, and scratch from there to a whole number of vectors.</summary>
    public Span<double> Gain(int channel, int frames) =>
        _gains[Math.Min(channel, _gains.Length - 1)].AsSpan(0, DecibelKernel.WholeVectors(frames));

    /// <summary>The lower gain of the lanes over the chunk last read.</summary>
    public ReadOnlySpan<double> LowestGain(int frames)
    {
        if (_gains.Length == 1)
        {
            return _gains[0].AsSpan(0, frames);
        }

        var lowest = _lowest.AsSpan(0, DecibelKernel.WholeVectors(frames));
        _gains[0].AsSpan(0, lowest.Length).CopyTo(lowest);
        StretchMath.Lower(lowest, _gains[1]);
        return lowest[..frames];
    }

    private static T[] Make<T>(int count, Func<T> make)
    {
        var items = new T[count];
        for (var i = 0; i < count; i++)
        {
            items[i] = make();
        }

        return items;
    }

    // Leaves each lane's amplitudes, or powers, in the levels.
    private void Listen(AudioBlock block, AudioBlock key, int room)
    {
        for (var channel = 0; channel < _input.Channels; channel++)
        {
            var levels = _levels[channel].AsSpan(0, room);
            _input.Read(block, key, channel, levels[..block.Frames]);
            if (_averages.Length > 0)
            {
                _averages[channel].Follow(levels[..block.Frames]);
            }
            else
            {
                StretchMath.Magnitudes(levels);
            }

            if (channel >= _gains.Length)
            {
                StretchMath.Raise(_levels[0].AsSpan(0, room), levels);
            }
        }
    }

    // Below the knee a level changes nothing, whatever it is.
    private void AskNothing(int room)
    {
        for (var lane = 0; lane < _gains.Length; lane++)
        {
            _levels[lane].AsSpan(0, room).Fill(FeedbackLoop.Silence);
            _gains[lane].AsSpan(0, room).Clear();
        }
    }

    private void Ask(int room)
    {
        for (var lane = 0; lane < _gains.Length; lane++)
        {
            var levels = _levels[lane].AsSpan(0, room);
            if (_averages.Length == 0)
            {
                DecibelKernel.AmplitudeToDecibels(levels);
            }
            else
            {
                DecibelKernel.PowerToDecibels(levels);
            }

            levels.CopyTo(_gains[lane]);
            _computer.Reduce(_gains[lane].AsSpan(0, room));
        }
    }

    private void Follow(int frames, int room)
    {
        var first = _gains[0].AsSpan(0, frames);
        var second = _gains[^1].AsSpan(0, frames);
        if (_loop is { } loop)
        {
            loop.Follow(_levels[0], _levels[_gains.Length - 1], first, second);
            return;
        }

        if (_gains.Length > 1)
        {
            var most = _lowest.AsSpan(0, room);
            _gains[0].AsSpan(0, room).CopyTo(most);
            StretchMath.Raise(most, _gains[1]);
            StretchMath.Approach(_gains[0].AsSpan(0, room), most, _link);
            StretchMath.Approach(_gains[1].AsSpan(0, room), most, _link);
        }

        _follower!.Follow(first, second);
    }
}
