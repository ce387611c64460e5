using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
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
        catch (Exception e) when (e is DrumPrintException or IOException or UnauthorizedAccessException)
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
        Send(new PartnerMessage(Partner.File, Partner.Problem, Partner.IsOpening, Partner.Outline is { } peaks ? Outliner.Text(peaks) : null), BenchJson.Default.PartnerMessage);

    private static IReadOnlyList<ChainValue> Values(Asked asked) =>
        [.. asked.Values.Select(v => new ChainValue(v.Place, v.Key, v.Number is { } number ? number.ToString("0.######", CultureInfo.InvariantCulture) : v.Word is { } word ? JsonSerializer.Serialize(word, BenchJson.Default.String) : v.IsOn is { } isOn ? (isOn ? "true" : "false") : null))];

    private static double Ms(long start) => Math.Round(Stopwatch.GetElapsedTime(start).TotalMilliseconds, 1);

    private static double Gain(double db) => Dsp.Numerics.Decibels.ToGain(db);
}
