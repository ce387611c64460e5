using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>The followers of a compressor whose times move: one for each lane, and what they keep from frame to frame.</summary>
internal sealed class MovingTimes
{
    private const int Stride = TrueLevel.MaxFrames;

    private readonly MovingFollower[] _followers;
    private readonly CrestTimes[] _crests;
    private readonly double[][] _rises;
    private readonly double[][] _falls;
    private readonly double[][] _leaks;
    private readonly double[][] _powers;

    /// <param name="times">The times; some of them move.</param>
    /// <param name="lanes">Separate gains.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="points">Points a frame.</param>
    /// <param name="lateFrames">Frames by which levels lag.</param>
    public MovingTimes(CompressorTimes times, int lanes, int sampleRate, int points, int lateFrames)
    {
        _followers = Make(lanes, () => new MovingFollower(times.DeepDb));
        _crests = times.IsByCrest ? Make(lanes, () => new CrestTimes(times.AttackMs, times.ReleaseMs, sampleRate, points, lateFrames, Stride)) : [];
        var pointRate = points * sampleRate / 1000.0;
        var ballistics = new Ballistics(times.AttackMs * pointRate, times.ReleaseMs * pointRate);
        (_rises, _falls, _leaks) = (Rows(lanes, ballistics.Rise), Rows(lanes, ballistics.Fall), Rows(lanes, ballistics.Leak));
        _powers = Rows(times.IsByCrest ? lanes : 0, 0);
    }

    /// <summary>Whether nothing is turned down and nothing of the past is left.</summary>
    public bool IsAtRest => Array.TrueForAll(_followers, static f => f.IsAtRest);

    /// <summary>Takes in a channel of what is listened to.</summary>
    /// <param name="channel">Its number; those past the last lane go into the last.</param>
    /// <param name="heard">Its samples.</param>
    /// <param name="linksBySum">Whether the mean of the powers counts, or the larger one.</param>
    public void Listen(int channel, ReadOnlySpan<double> heard, bool linksBySum)
    {
        if (_crests.Length == 0)
        {
            return;
        }

        var powers = _powers[Math.Min(channel, _powers.Length - 1)];
        for (var n = 0; n < heard.Length; n++)
        {
            var power = heard[n] * heard[n];
            powers[n] = channel < _powers.Length ? power : linksBySum ? (powers[n] + power) * 0.5 : Math.Max(powers[n], power);
        }
    }

    /// <summary>Works out the times of the stretch that was listened to.</summary>
    public void Move(int frames)
    {
        for (var lane = 0; lane < _crests.Length; lane++)
        {
            var rises = _rises[lane].AsSpan(0, frames);
            _crests[lane].Follow(_powers[lane].AsSpan(0, frames), rises, _leaks[lane].AsSpan(0, frames));
            rises.CopyTo(_falls[lane]);
        }
    }

    /// <summary>Replaces the reductions that a lane asks for.</summary>
    public void Follow(int lane, Span<double> rows, int points, int frames) => _followers[lane].Follow(
        rows, points, Stride, _rises[lane].AsSpan(0, frames), _falls[lane].AsSpan(0, frames), _leaks[lane].AsSpan(0, frames));

    private static double[][] Rows(int count, double value) => Make(count, () =>
    {
        var row = new double[LaneWidth.Whole(Stride)];
        Array.Fill(row, value);
        return row;
    });

    private static T[] Make<T>(int count, Func<T> make)
    {
        var items = new T[count];
        for (var i = 0; i < count; i++)
        {
            items[i] = make();
        }

        return items;
    }
}
