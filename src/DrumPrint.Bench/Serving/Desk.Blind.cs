using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
using DrumPrint.Live;

namespace DrumPrint.Bench.Serving;

/// <summary>Plays two states in step at one loudness, for the blind test. Which of them X is only the page knows.</summary>
internal sealed partial class Desk
{
    private const double MostMatchSeconds = 30;

    private (long From, long To)? _repeated;
    private bool _isBlind;

    private void BeginBlind(int? first, int? second)
    {
        HearFile();
        TellState();
        if (State(first) is not { } a || State(second) is not { } b)
        {
            Send(new BlindMessage(false, 0, "One of the two is no longer kept. Choose another."), BenchJson.Default.BlindMessage);
            return;
        }

        if (ReferenceEquals(a, b))
        {
            Send(new BlindMessage(false, 0, "Nothing has changed between the two, so there is nothing to tell apart. Change something first."), BenchJson.Default.BlindMessage);
            return;
        }

        var cancel = NewMatching();
        var file = _file.Chain;
        var (end, seconds) = Spot(_repeated);
        _ = SideThread.Run(() =>
        {
            try
            {
                var (loudA, loudB) = (Engine.Loudness(a, end, seconds, cancel), Engine.Loudness(b, end, seconds, cancel));
                Later(() => Guarded(0, () => Blind(a, b, file, loudB - loudA)));
            }
            catch (OperationCanceledException)
            {
                Later(() => Send(new BlindMessage(false, 0, "Something else was asked for meanwhile. Start again."), BenchJson.Default.BlindMessage));
            }
            catch (Exception e) when (e is DrumPrintException or IOException or UnauthorizedAccessException)
            {
                Later(() => Send(new BlindMessage(false, 0, Reasons.Of(e)), BenchJson.Default.BlindMessage));
            }
        });
    }

    private void Blind(Chain a, Chain b, Chain file, double db)
    {
        if (!ReferenceEquals(file, _file.Chain))
        {
            Send(new BlindMessage(false, 0, "The chain was changed meanwhile. Start again."), BenchJson.Default.BlindMessage);
            return;
        }

        if (!double.IsFinite(db))
        {
            Send(new BlindMessage(false, 0, "Here is nothing to match by: one of them is silent, or the stretch is too short. Go to a place where both play."), BenchJson.Default.BlindMessage);
            return;
        }

        // By how much the second is louder.
        Engine.Pair(a, b, KeptGain(db), FileGain(db));
        _isBlind = true;
        Send(new BlindMessage(true, Math.Round(db, 2), null), BenchJson.Default.BlindMessage);
    }

    private void EndBlind(string? why)
    {
        if (!_isBlind)
        {
            return;
        }

        _isBlind = false;
        Send(new BlindMessage(false, 0, why), BenchJson.Default.BlindMessage);
        Engine.Change(_file.Chain);
    }

    private Chain? State(int? number) => number is null ? _file.Chain : _kept.FirstOrDefault(k => k.Number == number).Chain;
}
