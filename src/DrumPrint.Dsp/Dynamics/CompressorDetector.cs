namespace DrumPrint.Dsp.Dynamics;

/// <summary>Listens to a signal or key and says by how much a compressor turns down each channel.</summary>
/// <remarks>With full link, or one thing to listen to, there is one lane whose level is that of the louder channel. Otherwise
/// every channel has its own lane, and each is drawn towards the one that asks for most: by the link's part of the
/// difference in dB, before attack and release.</remarks>
internal sealed class CompressorDetector
{
    private readonly KeyInput _input;
    private readonly GainComputer _computer;
    private readonly PowerAverage[]? _averages;
    private readonly ReductionFollower[] _followers;
    private readonly FeedbackLoop? _loop;
    private readonly double _link;
    private readonly double[][] _levels;
    private readonly double[][] _reductions;
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
        var lanes = link < 1 && input.Channels == context.Format.Channels ? input.Channels : 1;
        if (times.RmsMs is { } rmsMs)
        {
            _averages = Make(input.Channels, () => new PowerAverage(TimeConstant.PerFrame(rmsMs, rate)));
        }

        // An output is heard one frame late, so a loop's own times are that much shorter.
        var isLoop = isFeedback && !input.IsExternal;
        var late = isLoop ? 1 : 0;
        var ballistics = new Ballistics((times.AttackMs * rate / 1000) - late, (times.ReleaseMs * rate / 1000) - late);
        _loop = isLoop ? new FeedbackLoop(ballistics, computer.Foot, lanes, link) : null;
        _followers = Make(isLoop ? 0 : lanes, () => new ReductionFollower(ballistics));
        var room = DecibelKernel.WholeVectors(chunkFrames);
        _levels = Make(input.Channels, () => new double[room]);
        _reductions = Make(lanes, () => new double[room]);
        _lowest = lanes == 1 ? _reductions[0] : new double[room];
    }

    /// <summary>Whether another signal is listened to.</summary>
    public bool IsExternal => _input.IsExternal;

    /// <summary>Works out the gains for a chunk.</summary>
    public void Read(AudioBlock block, AudioBlock key)
    {
        var frames = block.Frames;
        var room = DecibelKernel.WholeVectors(frames);
        Listen(block, key, room);
        for (var lane = 0; lane < _reductions.Length; lane++)
        {
            var levels = _levels[lane].AsSpan(0, room);
            if (_averages is null)
            {
                DecibelKernel.AmplitudeToDecibels(levels);
            }
            else
            {
                DecibelKernel.PowerToDecibels(levels);
            }

            levels.CopyTo(_reductions[lane]);
            _computer.Reduce(_reductions[lane].AsSpan(0, room));
        }

        Follow(frames, room);
        foreach (var reductions in _reductions)
        {
            DecibelKernel.ReductionToGain(reductions.AsSpan(0, room));
        }
    }

    /// <summary>The gain of a channel over the chunk last read.</summary>
    public ReadOnlySpan<double> Gain(int channel, int frames) => _reductions[_reductions.Length == 1 ? 0 : channel].AsSpan(0, frames);

    /// <summary>The lowest gain of all channels over the chunk last read.</summary>
    public ReadOnlySpan<double> LowestGain(int frames)
    {
        if (_reductions.Length > 1)
        {
            var room = DecibelKernel.WholeVectors(frames);
            _reductions[0].AsSpan(0, room).CopyTo(_lowest);
            for (var lane = 1; lane < _reductions.Length; lane++)
            {
                StretchMath.Lower(_lowest.AsSpan(0, room), _reductions[lane]);
            }
        }

        return _lowest.AsSpan(0, frames);
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
            if (_averages is { } averages)
            {
                averages[channel].Follow(levels[..block.Frames]);
            }
            else
            {
                StretchMath.Magnitudes(levels);
            }

            if (channel >= _reductions.Length)
            {
                StretchMath.Raise(_levels[0].AsSpan(0, room), levels);
            }
        }
    }

    private void Follow(int frames, int room)
    {
        if (_loop is { } loop)
        {
            loop.Follow(_levels, _reductions, frames);
            return;
        }

        if (_reductions.Length > 1)
        {
            _reductions[0].AsSpan(0, room).CopyTo(_lowest);
            for (var lane = 1; lane < _reductions.Length; lane++)
            {
                StretchMath.Raise(_lowest.AsSpan(0, room), _reductions[lane]);
            }

            foreach (var reductions in _reductions)
            {
                StretchMath.Approach(reductions.AsSpan(0, room), _lowest, _link);
            }
        }

        for (var lane = 0; lane < _reductions.Length; lane++)
        {
            _followers[lane].Follow(_reductions[lane].AsSpan(0, frames));
        }
    }
}
