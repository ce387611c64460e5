using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Live;

namespace DrumPrint.Bench.Serving;

/// <summary>Turns what goes wrong into sentences, and messages into bytes.</summary>
internal sealed partial class Desk
{
    private void Guarded(int id, Action action)
    {
        try
        {
            action();
        }
        catch (OperationCanceledException)
        {
            Refuse(id, "Stopped. Nothing was left half-written.");
        }
        catch (Exception e) when (e is DrumPrintException or SettingsException or IOException or UnauthorizedAccessException)
        {
            Refuse(id, Reasons.Of(e));
        }
    }

    private void Refuse(int id, string text)
    {
        Send(new WordMessage(id, text, "refused"), BenchJson.Default.WordMessage);
        if (id != 0)
        {
            TellState();
        }
    }

    private void Send<T>(T message, JsonTypeInfo<T> type) => Tell(JsonSerializer.SerializeToUtf8Bytes(message, type));

    private void TellPartner() =>
        Send(new PartnerMessage(Partner.File, Partner.Problem, Partner.IsOpening, Partner.Outline is { } peaks ? OutlineMessage.Text(peaks) : null), BenchJson.Default.PartnerMessage);

    private void Outline(TimeSpan wait)
    {
        _outlined = _file.Chain;
        _outliner.Begin(_file.Chain, wait);
        if (_outline is not null)
        {
            _outline = _outline with { IsOld = true, Problem = null };
            Send(new OutlineMessage(new Dictionary<string, string>(), []) { IsOld = true }, BenchJson.Default.OutlineMessage);
        }
    }

    // Told by the thread that draws.
    private void TellDrawing(Chain chain, double part)
    {
        if (ReferenceEquals(chain, _outlined))
        {
            Send(new ProgressMessage("outline", "drawing", Math.Round(part, 2)), BenchJson.Default.ProgressMessage);
        }
    }

    // Without a picture the one before stays, as an old one.
    private void TakeOutline(Chain chain, OutlineMessage message)
    {
        if (!ReferenceEquals(chain, _outlined))
        {
            return;
        }

        _outline = message.Problem is null || _outline is null ? message : _outline with { IsOld = true, Problem = message.Problem };
        Send(_outline, BenchJson.Default.OutlineMessage);
    }

    private static IReadOnlyList<ChainValue> Values(Asked asked) =>
        [.. asked.Values.Select(v => new ChainValue(v.Place, v.Key, v.Number is { } number ? number.ToString("0.######", CultureInfo.InvariantCulture) : v.Word is { } word ? JsonSerializer.Serialize(word, BenchJson.Default.String) : v.IsOn is { } isOn ? (isOn ? "true" : "false") : null))];

    private static double Ms(long start) => Math.Round(Stopwatch.GetElapsedTime(start).TotalMilliseconds, 1);

    private static double Gain(double db) => Dsp.Numerics.Decibels.ToGain(db);
}
