using System.Diagnostics;

namespace DrumPrint.Live;

/// <summary>Repeats a stretch of the song.</summary>
public sealed partial class LiveEngine
{
    // Another change may follow at once, and would throw away what is made for going back.
    private static readonly TimeSpan Rest = TimeSpan.FromSeconds(1.5);

    // Time enough to make the graph that goes back.
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(2);

    private LiveGraph? _again;
    private (long From, long To)? _stretch;
    private int _givenUp;
    private int? _failed;

    /// <summary>Repeats a stretch, once <see cref="PrepareAgain"/> has been called; null plays on to the end.</summary>
    /// <param name="from">Its first frame.</param>
    /// <param name="to">One past its last.</param>
    public void Repeat(long? from, long? to)
    {
        lock (_control)
        {
            lock (_play)
            {
                _stretch = from is { } a && to is { } b && b - Math.Max(0, a) >= BlockFrames * 10L ? (Math.Max(0, a) / BlockFrames, b / BlockFrames) : null;
                GiveUpAgain();
            }
        }
    }

    /// <summary>Makes the graph to which a repeated stretch goes back. To be called now and then, on a thread that may wait. Where it cannot be made, it
    /// is tried again after a change only.</summary>
    /// <exception cref="DrumPrintException">A file cannot be read there.</exception>
    public void PrepareAgain()
    {
        (long From, long To)? stretch;
        LiveSession session;
        LiveSession? otherSession;
        HeardSettings settings;
        int givenUp;
        lock (_play)
        {
            (stretch, session, otherSession, settings, givenUp) = (_stretch, _session, _otherSession, _settings, _givenUp);
            if (stretch is null || _lent is not null || _failed == _givenUp || _again is not null || !IsSoon(stretch.Value.To) && Stopwatch.GetElapsedTime(_changedAt) < Rest)
            {
                return;
            }
        }

        var graph = LiveGraph.Build(session, settings, null, stretch.Value.From, _pool);
        LiveGraph? other;
        bool isMade;
        try
        {
            var way = new GivesWay(IsShort) { LongestRest = Soon, IsAlone = true, IsOff = () => Volatile.Read(ref _givenUp) != givenUp };
            isMade = graph.PreRoll(graph.Position, way);
            other = isMade ? OtherBeside(graph, otherSession, settings) : null;
        }
        catch
        {
            lock (_play)
            {
                _failed = givenUp;
            }

            graph.Drop();
            throw;
        }

        lock (_play)
        {
            if (isMade && _lent is null && givenUp == _givenUp
                && _stretch == stretch && ReferenceEquals(session, _session) && ReferenceEquals(otherSession, _otherSession) && settings == _settings && _again is null)
            {
                (_again, _otherAgain) = (graph, other);
            }
            else
            {
                other?.Drop(graph);
                graph.Drop();
            }
        }
    }

    private bool IsSoon(long to) => to - _now.Position < Soon.TotalSeconds * LiveGraph.BlocksPerSecond;

    // Within the lock of what plays. What is being made is given up too.
    private void GiveUpAgain()
    {
        _givenUp++;
        DropAgain();
    }

    private void DropAgain()
    {
        if (_again is { } again)
        {
            _otherAgain?.Drop(again);
            again.Drop();
        }

        (_again, _otherAgain) = (null, null);
    }
}
