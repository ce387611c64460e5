using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
using DrumPrint.Live;

namespace DrumPrint.Bench.Serving;

/// <summary>Hears a kept state in place of the file, both at one loudness.</summary>
internal sealed partial class Desk
{
    private void Keep(string name, Chain chain)
    {
        _keptBefore++;
        _kept.Add((_keptBefore, name, chain));
        Match(_keptBefore);
    }

    // Once the hand rests; until it is known both are heard as they are.
    private void Match(int number)
    {
        if (_kept.FirstOrDefault(k => k.Number == number).Chain is not { } other)
        {
            return;
        }

        var cancel = NewMatching();
        var mine = _file.Chain;
        _ = SideThread.Run(() =>
        {
            try
            {
                // Another change may follow at once, and twelve seconds of the song are much to compute.
                if (cancel.WaitHandle.WaitOne(Rest))
                {
                    return;
                }

                var frame = Sound.Frame;
                var before = Engine.Loudness(other, frame, MatchSeconds, cancel);
                var after = Engine.Loudness(mine, frame, MatchSeconds, cancel);
                Later(() => Matched(mine, double.IsFinite(before) && double.IsFinite(after) ? after - before : 0));
            }
            catch (Exception e) when (e is OperationCanceledException or ObjectDisposedException)
            {
                return; // another change has followed
            }
            catch (Exception e) when (e is DrumPrintException or IOException or UnauthorizedAccessException)
            {
                Refuse(0, Reasons.Of(e));
            }
        });
    }

    private CancellationToken NewMatching()
    {
        _matching.Cancel();
        _matching.Dispose();
        _matching = CancellationTokenSource.CreateLinkedTokenSource(_end.Token);
        return _matching.Token;
    }

    private void Matched(Chain mine, double db)
    {
        if (ReferenceEquals(mine, _file.Chain) && _heard is null)
        {
            _matchDb = db;
            Send(new MatchMessage(Math.Round(db, 2)), BenchJson.Default.MatchMessage);
        }
    }

    private void HearKept(int? number)
    {
        if (number is null)
        {
            HearFile(isMatched: _isMatched);
            TellState();
            return;
        }

        if (_kept.FirstOrDefault(k => k.Number == number).Chain is { } chain)
        {
            // The louder of both is lowered; none is raised.
            _isMatched = true;
            Hear(chain, Gain(Math.Min(0, _matchDb)));
            _heard = number;
            TellState();
        }
    }

    // From the first flip on both are heard at one loudness, until something is changed.
    private void HearFile(bool isMatched = false)
    {
        _isMatched = isMatched;
        var gain = isMatched ? Gain(Math.Min(0, -_matchDb)) : 1;
        if (_heard is not null)
        {
            _heard = null;
            Hear(_file.Chain, gain);
        }

        Engine.Match(gain);
    }
}
