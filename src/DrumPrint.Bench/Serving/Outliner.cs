using System.Globalization;
using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Live;

namespace DrumPrint.Bench.Serving;

/// <summary>Draws the song again once nothing has changed for a while, when the processor has nothing better to do.</summary>
/// <param name="reading">Which files the chain may name.</param>
/// <param name="done">Told the picture.</param>
internal sealed class Outliner(ReadPolicy reading, Action<OutlineMessage> done) : IDisposable
{
    private const int Columns = 1200;

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

            var outline = SongOutline.Of(chain, Columns, reading, cancel);
            done(new OutlineMessage(outline.Columns.ToDictionary(c => c.Key.ToString(CultureInfo.InvariantCulture), c => Text(c.Value))));
        }
        catch (Exception e) when (e is OperationCanceledException or ObjectDisposedException or DrumPrintException or IOException)
        {
            return; // a picture less
        }
    }

    // The square root shows soft passages too.
    public static string Text(IEnumerable<float> peaks) => Convert.ToBase64String([.. peaks.Select(p => (byte)Math.Clamp(Math.Round(255 * Math.Sqrt(p)), 0, 255))]);
}
