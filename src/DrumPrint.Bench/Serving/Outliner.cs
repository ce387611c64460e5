using System.Diagnostics;
using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Live;

namespace DrumPrint.Bench.Serving;

/// <summary>Draws the song again once nothing has changed for a while: how loud its prints are, and what moves their gain.</summary>
/// <param name="reading">Which files the chain may name.</param>
/// <param name="trimDb">Common trim of the prints.</param>
/// <param name="isPlaying">Whether something plays; then it works a quarter of the time.</param>
/// <param name="isAsked">Whether somebody waits for a change; then it does not work.</param>
/// <param name="drawing">Told once a second how far the picture of a chain is.</param>
/// <param name="done">Told of which chain there is a picture, or why there is none.</param>
internal sealed class Outliner(ReadPolicy reading, double trimDb, Func<bool> isPlaying, Func<bool> isAsked, Action<Chain, double> drawing, Action<Chain, OutlineMessage> done) : IDisposable
{
    private const int Columns = 1200;

    // Work in one go, short against what is queued for the ear.
    private static readonly TimeSpan Stint = TimeSpan.FromMilliseconds(10);
    // And how much longer it rests while something plays.
    private const int RestPerWork = 3;

    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(50);
    private static readonly TimeSpan Told = TimeSpan.FromSeconds(1);

    private readonly Lock _one = new();
    private readonly SongHits _hits = new(reading);
    private CancellationTokenSource _drawing = new();

    /// <summary>Begins anew; what was begun before is given up.</summary>
    public void Begin(Chain chain, TimeSpan wait)
    {
        _drawing.Cancel();
        _drawing = new CancellationTokenSource();
        var cancel = _drawing.Token;
        SideThread.RunLast("outline", () => Draw(chain, wait, cancel));
    }

    public void Dispose()
    {
        _drawing.Cancel();
        _drawing.Dispose();
    }

    private void Draw(Chain chain, TimeSpan wait, CancellationToken cancel)
    {
        try
        {
            if (cancel.WaitHandle.WaitOne(wait))
            {
                return;
            }

            // The one before stops at its next block.
            lock (_one)
            {
                done(chain, OutlineMessage.Of(SongOutline.Of(chain, Columns, trimDb, _hits, reading, Rests(chain, cancel), cancel)));
            }
        }
        catch (Exception e) when (e is OperationCanceledException or ObjectDisposedException)
        {
            return; // a newer one comes, or the end
        }
        catch (Exception e) when (e is DrumPrintException or IOException or UnauthorizedAccessException)
        {
            done(chain, new OutlineMessage(new Dictionary<string, string>(), []) { Problem = Reasons.Of(e) });
        }
    }

    private Action<double> Rests(Chain chain, CancellationToken cancel)
    {
        var since = Stopwatch.StartNew();
        var told = Stopwatch.GetTimestamp();
        return part =>
        {
            cancel.ThrowIfCancellationRequested();
            if (Stopwatch.GetElapsedTime(told) > Told)
            {
                told = Stopwatch.GetTimestamp();
                drawing(chain, part);
            }

            if (since.Elapsed > Stint)
            {
                var worked = since.Elapsed;
                while (isAsked())
                {
                    cancel.WaitHandle.WaitOne(Pause);
                    cancel.ThrowIfCancellationRequested();
                }

                if (isPlaying())
                {
                    cancel.WaitHandle.WaitOne(RestPerWork * worked);
                }

                since.Restart();
            }
        };
    }
}
