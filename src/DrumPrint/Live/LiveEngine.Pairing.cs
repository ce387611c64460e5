using DrumPrint.Chains;
using DrumPrint.Session;

namespace DrumPrint.Live;

/// <summary>Plays two chains in step, of which one is heard: what a blind test is made of.</summary>
/// <remarks>Both are computed all the time, so that nothing tells which of them is heard: neither the time a switch takes, nor meters, which read the
/// first. Every switch goes through silence, also one to the side that is heard already.</remarks>
public sealed partial class LiveEngine
{
    private readonly double[] _pairGains = [1, 1];
    private LiveSession? _otherSession;
    private LiveGraph? _other;
    private LiveGraph? _otherAgain;
    private bool _isOther;
    private bool? _asked;

    /// <summary>Whether two chains are played in step.</summary>
    public bool IsPaired
    {
        get
        {
            lock (_play)
            {
                return _other is not null;
            }
        }
    }

    private LiveGraph HeardGraph => _isOther && _other is { } other ? other : _now;

    /// <summary>Plays two chains in step; the first is heard. Any change of the chain ends it.</summary>
    /// <param name="a">The first.</param>
    /// <param name="b">The second.</param>
    /// <param name="gainA">Linear gain at which the first is heard.</param>
    /// <param name="gainB">Linear gain at which the second is heard.</param>
    /// <exception cref="InputException">Files are missing or do not fit; what sounded goes on.</exception>
    /// <exception cref="ChainException">Settings that are each in range do not go together; what sounded goes on.</exception>
    public void Pair(Chain a, Chain b, double gainA, double gainB)
    {
        lock (_control)
        {
            var (before, gain) = (_session.Chain, _wantedGain);
            var second = LiveSession.Of(b, _reading, _session);
            Change(a);
            try
            {
                Join(second, _settings, 0, (other, _) =>
                {
                    (_other, _otherSession, _isOther, _asked) = (other, second, false, null);
                    (_pairGains[0], _pairGains[1]) = (gainA, gainB);
                });
            }
            catch
            {
                Change(before, gain);
                throw;
            }
        }
    }

    /// <summary>Hears one of the two from the next block on, through silence.</summary>
    /// <param name="isSecond">Whether it is the second.</param>
    public void Hear(bool isSecond)
    {
        lock (_play)
        {
            _asked = _other is null ? null : isSecond;
        }
    }

    // Where the level goes within the next block: down to silence first, then up to the side that was asked for.
    private double NextGain()
    {
        if (_other is null)
        {
            return Volatile.Read(ref _wantedGain);
        }

        if (_asked is { } asked)
        {
            if (_gain > 0)
            {
                return 0;
            }

            (_isOther, _asked) = (asked, null);
        }

        return _pairGains[_isOther ? 1 : 0];
    }

    // The second chain at the place of a graph of the first.
    private LiveGraph? OtherBeside(LiveGraph first, LiveSession? session, HeardSettings settings)
    {
        if (session is null)
        {
            return null;
        }

        var other = LiveGraph.Build(session, settings, first, first.Position, _pool);
        other.PreRoll(first.Position, new GivesWay(IsShort));
        other.MoveTo(first.Position);
        return other;
    }

    private void EndPair() => (_otherSession, _isOther, _asked) = (null, false, null);
}
