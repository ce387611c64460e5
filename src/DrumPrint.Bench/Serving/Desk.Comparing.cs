using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
using DrumPrint.Live;

namespace DrumPrint.Bench.Serving;

/// <summary>Hears a kept state in place of the file, both at one loudness.</summary>
internal sealed partial class Desk
{
    // What was measured at one place holds for this long around it.
    private const double NearSeconds = 10;

    private (int Kept, Chain Mine, long End, double Db)? _match;
    private (int Kept, Chain Mine)? _measuring;
    private int _chosen;

    private void Keep(string name, Chain chain)
    {
        _keptBefore++;
        _kept.Add((_keptBefore, name, chain));
    }

    // The state that the page would flip to.
    private void Choose(int number)
    {
        _chosen = number;
        if (MatchOf(number) is null)
        {
            MatchUnlessBegun(number);
        }
    }

    // Who flips to and fro would else begin it again and again.
    private void MatchUnlessBegun(int number)
    {
        if (_measuring is not { } measuring || measuring.Kept != number || !ReferenceEquals(measuring.Mine, _file.Chain))
        {
            Match(number, TimeSpan.Zero);
        }
    }

    // Until it is known both are heard as they are.
    private void Match(int number, TimeSpan wait)
    {
        if (_kept.FirstOrDefault(k => k.Number == number).Chain is not { } other)
        {
            return;
        }

        var cancel = NewMatching();
        var (mine, repeated) = (_file.Chain, _repeated);
        _measuring = (number, mine);
        _ = SideThread.Run(() =>
        {
            try
            {
                // Another change may follow at once, and twelve seconds of the song are much to compute.
                if (cancel.WaitHandle.WaitOne(wait))
                {
                    return;
                }

                var (end, seconds) = Spot(repeated);
                var before = Engine.Loudness(other, end, seconds, cancel);
                var after = Engine.Loudness(mine, end, seconds, cancel);
                Later(() => Matched(number, mine, end, double.IsFinite(before) && double.IsFinite(after) ? after - before : 0));
            }
            catch (Exception e) when (e is OperationCanceledException or ObjectDisposedException)
            {
                return; // another change has followed
            }
            catch (Exception e) when (e is DrumPrintException or IOException or UnauthorizedAccessException)
            {
                Later(() => _measuring = null);
                Refuse(0, Reasons.Of(e));
            }
        });
    }

    // What is repeated is what will be heard; else what lies before the place.
    private (long End, double Seconds) Spot((long From, long To)? repeated) => repeated is { } stretch
        ? (stretch.To, Math.Min(MostMatchSeconds, (stretch.To - stretch.From) / (double)Engine.RateHz))
        : (Math.Max(Sound.Frame, (long)(MatchSeconds * Engine.RateHz)), MatchSeconds);

    // By how much the file is louder than a state; null while that is not known here.
    private double? MatchOf(int number) => _match is { } match && match.Kept == number && ReferenceEquals(match.Mine, _file.Chain) ? match.Db : null;

    private bool IsMatchedHere(int number) =>
        MatchOf(number) is not null && Math.Abs(_match!.Value.End - Spot(_repeated).End) < NearSeconds * Engine.RateHz;

    private CancellationToken NewMatching()
    {
        _matching.Cancel();
        _matching.Dispose();
        _matching = CancellationTokenSource.CreateLinkedTokenSource(_end.Token);
        _measuring = null;
        return _matching.Token;
    }

    private void Matched(int number, Chain mine, long end, double db)
    {
        if (!ReferenceEquals(mine, _file.Chain))
        {
            return;
        }

        _measuring = null;
        _match = (number, mine, end, db);
        Send(new MatchMessage(number, Math.Round(db, 2)), BenchJson.Default.MatchMessage);
        if (_isMatched && number == (_heard ?? _chosen) && !_isBlind)
        {
            Engine.Match(_heard is null ? FileGain(db) : KeptGain(db));
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
            _chosen = number.Value;
            _isMatched = true;
            Hear(chain, KeptGain(MatchOf(_chosen) ?? 0));
            _heard = number;
            TellState();
            if (!IsMatchedHere(_chosen))
            {
                MatchUnlessBegun(_chosen);
            }
        }
    }

    // From the first flip on both are heard at one loudness, until something is changed.
    private void HearFile(bool isMatched = false)
    {
        _isMatched = isMatched;
        var gain = isMatched ? FileGain(MatchOf(_chosen) ?? 0) : 1;
        if (_heard is not null)
        {
            _heard = null;
            Hear(_file.Chain, gain);
        }

        Engine.Match(gain);
    }

    // The louder of both is lowered; none is raised.
    private static double KeptGain(double db) => Gain(Math.Min(0, db));

    private static double FileGain(double db) => Gain(Math.Min(0, -db));
}
