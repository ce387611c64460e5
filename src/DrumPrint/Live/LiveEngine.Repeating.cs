using System.Diagnostics;

namespace DrumPrint.Live;

/// <summary>Repeats a stretch of the song.</summary>
public sealed partial class LiveEngine
{
    // Another change may follow at once, and would throw away what is made for going back.
    private static readonly TimeSpan Rest = TimeSpan.FromSeconds(1.5);

    private LiveGraph? _again;
    private (long From, long To)? _stretch;

    /// <summary>Repeats a stretch; null plays on to the end.</summary>
    /// <param name="from">Its first frame.</param>
    /// <param name="to">One past its last.</param>
    public void Repeat(long? from, long? to)
    {
        lock (_control)
        {
            lock (_play)
            {
                _stretch = from is { } a && to is { } b && b - a >= BlockFrames * 10L ? (a / BlockFrames, b / BlockFrames) : null;
                DropAgain();
            }
        }

        PrepareAgain();
    }

    /// <summary>Makes the graph to which a repeated stretch goes back. To be called now and then, on a thread that may wait.</summary>
    public void PrepareAgain()
    {
        (long From, long To)? stretch;
        LiveSession session;
        LiveSession? otherSession;
        HeardSettings settings;
        lock (_play)
        {
            (stretch, session, otherSession, settings) = (_stretch, _session, _otherSession, _settings);
            if (stretch is null || _again is not null || !IsSoon(stretch.Value.To) && Stopwatch.GetElapsedTime(_changedAt) < Rest)
            {
                return;
            }
        }

        var graph = LiveGraph.Build(session, settings, null, stretch.Value.From, _pool);
        graph.PreRoll(graph.Position, IsShort);
        var other = OtherBeside(graph, otherSession, settings);
        lock (_play)
        {
            if (_stretch == stretch && ReferenceEquals(session, _session) && ReferenceEquals(otherSession, _otherSession) && settings == _settings && _again is null)
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

    // Two seconds are time enough to make it.
    private bool IsSoon(long to) => to - _now.Position < 2 * LiveGraph.BlocksPerSecond;

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
