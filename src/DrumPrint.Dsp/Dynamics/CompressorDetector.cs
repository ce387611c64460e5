using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Listens to a signal or key and says by how much a compressor turns down each channel, four times a frame.</summary>
/// <remarks>With full link, or one thing to listen to, there is one lane whose level is that of the louder channel, or the mean power of both. Otherwise
/// left and right have a lane each. A lane is drawn towards the one that asks for more, by the link's part of the difference
/// in dB, before attack and release. More than two channels are always fully linked.</remarks>
internal sealed class CompressorDetector
{
    private const int Points = 4;
    private const int Stride = TrueLevel.MaxFrames;

    // Just below the foot of the knee, so that what is under it surely asks for nothing.
    private const double Hair = 1 - 1e-9;

    private readonly KeyInput _input;
    private readonly GainComputer _computer;
    private readonly TrueLevel[] _readers;
    private readonly PowerAverage[] _averages;
    private readonly double _quiet;
    private readonly ReductionFollower? _follower;
    private readonly FeedbackLoop? _loop;
    private readonly MovingTimes? _moving;
    private readonly LateRelease[] _late;
    private readonly double _link;
    private readonly bool _linksBySum;
    private readonly double[] _heard = new double[Stride];
    private readonly double[][] _levels;
    private readonly double[][] _reductions;
    private readonly double[] _most = new double[Points * Stride];

    public CompressorDetector(
        ProcessorContext context,
        KeyInput input,
        GainComputer computer,
        CompressorTimes times,
        bool isFeedback,
        double link,
        bool linksBySum)
    {
        _input = input;
        _computer = computer;
        _link = link;
        _linksBySum = linksBySum;
        var rate = context.Format.SampleRate;
        var pointRate = Points * rate;
        var lanes = link < 1 && input.Channels == 2 && context.Format.Channels == 2 ? 2 : 1;
        var foot = Decibels.ToGain(computer.Foot);
        _quiet = foot * foot * Hair;
        _readers = Make(input.Channels, () => LevelRates.Fine(rate, findsPeaks: times.RmsMs is null));
        _averages = times.RmsMs is { } rmsMs ? Make(input.Channels, () => new PowerAverage(TimeConstant.PerFrame(rmsMs, pointRate))) : [];

        var isLoop = isFeedback && !input.IsExternal;
        var (attack, release) = (times.AttackMs * pointRate / 1000, times.ReleaseMs * pointRate / 1000);
        _loop = isLoop ? new FeedbackLoop(attack, release, computer.Foot, lanes == 1 ? 0 : link) : null;
        _moving = times.Move ? new MovingTimes(times, lanes, rate, Points, _readers[0].DelayPoints / Points) : null;
        _follower = isLoop || times.Move ? null : new ReductionFollower(attack, release);
        var slow = times.SlowReleaseMs * pointRate / 1000;
        _late = times.HasLateRelease ? Make(lanes, () => new LateRelease(TriggerTimes.Frames(times.HoldMs, pointRate), slow, times.SlowAfterMs * pointRate / 1000)) : [];
        _levels = Make(input.Channels, () => new double[Points * Stride]);
        _reductions = Make(lanes, () => new double[Points * Stride]);
    }

    /// <summary>Whether another signal is listened to.</summary>
    public bool IsExternal => _input.IsExternal;

    /// <summary>Separate gains: 1 for all channels, or one for each of two.</summary>
    public int Lanes => _reductions.Length;

    /// <summary>By how many quarters of a frame the reductions lag.</summary>
    public int DelayPoints => _readers[0].DelayPoints;

    private bool IsAtRest => (_follower?.IsAtRest ?? _loop?.IsAtRest ?? _moving!.IsAtRest) && Array.TrueForAll(_late, static l => l.IsAtRest);

    /// <summary>Works out the reductions for a stretch of at most <see cref="TrueLevel.MaxFrames"/>.</summary>
    /// <returns>Whether anything is turned down.</returns>
    public bool Read(AudioBlock block, AudioBlock key)
    {
        var frames = block.Frames;
        var room = LaneWidth.Whole(frames);
        Listen(block, key, room);
        _moving?.Move(frames);
        var isQuiet = true;
        for (var lane = 0; lane < _reductions.Length; lane++)
        {
            for (var point = 0; point < Points && isQuiet; point++)
            {
                isQuiet = LevelScan.FirstAtLeast(Row(_levels[lane], point, frames), _quiet) == frames;
            }
        }

        if (isQuiet && IsAtRest)
        {
            return false;
        }

        if (isQuiet)
        {
            AskNothing();
        }
        else
        {
            Ask(room);
        }

        Follow(frames, room);
        for (var lane = 0; lane < _late.Length; lane++)
        {
            _late[lane].Follow(_reductions[lane], Points, Stride, frames);
        }

        return true;
    }

    /// <summary>The reductions of a lane in dB over the stretch last read, a row for each point of a frame.</summary>
    public double[] Reductions(int lane) => _reductions[lane];

    private static T[] Make<T>(int count, Func<T> make)
    {
        var items = new T[count];
        for (var i = 0; i < count; i++)
        {
            items[i] = make();
        }

        return items;
    }

    private static Span<double> Row(double[] rows, int point, int length) => rows.AsSpan(point * Stride, length);

    // Leaves each lane's powers in the levels.
    private void Listen(AudioBlock block, AudioBlock key, int room)
    {
        for (var channel = 0; channel < _input.Channels; channel++)
        {
            var heard = _heard.AsSpan(0, block.Frames);
            var levels = _levels[channel];
            _input.Read(block, key, channel, heard);
            _moving?.Listen(channel, heard, _linksBySum);
            _readers[channel].Read(heard, levels);
            if (_averages.Length > 0)
            {
                _averages[channel].Follow(levels, Points, Stride, block.Frames);
            }

            if (channel >= _reductions.Length)
            {
                for (var point = 0; point < Points; point++)
                {
                    Link(Row(_levels[0], point, room), Row(levels, point, room));
                }
            }
        }
    }

    // The louder of two sides, or the mean of their powers.
    private void Link(Span<double> levels, ReadOnlySpan<double> others)
    {
        if (_linksBySum)
        {
            StretchMath.Mean(levels, others);
        }
        else
        {
            StretchMath.Raise(levels, others);
        }
    }

    // Below the knee a level changes nothing, whatever it is.
    private void AskNothing()
    {
        for (var lane = 0; lane < _reductions.Length; lane++)
        {
            _levels[lane].AsSpan().Fill(FeedbackLoop.Silence);
            _reductions[lane].AsSpan().Clear();
        }
    }

    private void Ask(int room)
    {
        for (var lane = 0; lane < _reductions.Length; lane++)
        {
            for (var point = 0; point < Points; point++)
            {
                var levels = Row(_levels[lane], point, room);
                var reductions = Row(_reductions[lane], point, room);
                DecibelKernel.PowerToDecibels(levels);
                levels.CopyTo(reductions);
                _computer.Reduce(reductions);
            }
        }
    }

    private void Follow(int frames, int room)
    {
        var (first, second) = (_reductions[0], _reductions[^1]);
        if (_loop is { } loop)
        {
            loop.Follow(_levels[0], _levels[_reductions.Length - 1], first, second, Points, Stride, frames);
            return;
        }

        if (_reductions.Length > 1)
        {
            for (var point = 0; point < Points; point++)
            {
                var most = Row(_most, point, room);
                Row(first, point, room).CopyTo(most);
                StretchMath.Raise(most, Row(second, point, room));
                StretchMath.Approach(Row(first, point, room), most, _link);
                StretchMath.Approach(Row(second, point, room), most, _link);
            }
        }

        _follower?.Follow(first, second, Points, Stride, frames);
        for (var lane = 0; _moving is { } moving && lane < _reductions.Length; lane++)
        {
            moving.Follow(lane, _reductions[lane], Points, frames);
        }
    }
}
