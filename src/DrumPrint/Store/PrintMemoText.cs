using System.Globalization;
using System.Text;
using System.Text.Json;
using DrumPrint.Chains.Json;
using DrumPrint.Chains.Writing;
using DrumPrint.Session;

namespace DrumPrint.Store;

/// <summary>Print memos as bytes: a line with the sum of the rest, then JSON whose numbers read back to the last bit.</summary>
internal static class PrintMemoText
{
    /// <summary>Largest memo that is read.</summary>
    public const long MostBytes = 16 << 20;

    /// <param name="sums">The store's.</param>
    /// <param name="key">What the memo is kept under.</param>
    /// <param name="memo">What is known.</param>
    public static byte[] Of(StoreSums sums, string key, PrintMemo memo)
    {
        var json = Encoding.UTF8.GetString(CanonicalJson.DenseBytes(j => Write(j, key, memo)));
        return Encoding.UTF8.GetBytes($"{sums.Of(json)}\n{json}");
    }

    /// <summary>Null when the bytes are not those that were written under the key.</summary>
    public static PrintMemo? Parse(StoreSums sums, string key, byte[] bytes)
    {
        try
        {
            var parts = Encoding.UTF8.GetString(bytes).Split('\n', 2);
            if (parts.Length < 2 || sums.Of(parts[1]) != parts[0])
            {
                return null;
            }

            using var document = JsonDocument.Parse(parts[1]);
            return document.RootElement.GetProperty("key").GetString() == key ? Parse(document.RootElement) : null;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or KeyNotFoundException or FormatException)
        {
            return null;
        }
    }

    private static void Write(Utf8JsonWriter json, string key, PrintMemo memo)
    {
        json.WriteStartObject();
        json.WriteString("key", key);
        json.WriteString("name", memo.Name);
        json.WriteNumber("channels", memo.Channels);
        Number(json, "peak", memo.Peak);
        Number(json, "true_peak_db", memo.TruePeakDb);
        json.WriteNumber("quiet_from", memo.QuietFrom);
        json.WriteNumber("tail_to", memo.TailTo);
        json.WriteNumber("cap", memo.Cap);
        json.WriteNumber("latency", memo.LatencyFrames);
        if (memo.Written is { } written)
        {
            json.WriteStartObject("written");
            json.WriteNumber("frames", written.Frames);
            json.WriteString("audio_sha256", written.AudioSha256);
            json.WriteString("file_sha256", written.FileSha256);
            Number(json, "integrated_lufs", written.IntegratedLufs);
            Number(json, "crest_db", written.CrestDb);
            Number(json, "range_lu", written.RangeLu);
            Number(json, "max_momentary_lufs", written.MaxMomentaryLufs);
            Number(json, "max_short_term_lufs", written.MaxShortTermLufs);
            if (written.NullPeak is { } peak)
            {
                Number(json, "null_peak", peak);
            }

            json.WriteStartArray("gain_reduction");
            foreach (var reduction in written.GainReductions)
            {
                json.WriteStartObject();
                json.WriteString("processor", reduction.Processor);
                if (reduction.Bus is { } bus)
                {
                    json.WriteString("bus", bus);
                }

                Number(json, "median_db", reduction.MedianDb);
                Number(json, "largest_db", reduction.LargestDb);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    private static PrintMemo Parse(JsonElement json) => new(
        Text(json, "name"),
        json.GetProperty("channels").GetInt32(),
        Number(json, "peak"),
        json.GetProperty("quiet_from").GetInt64(),
        json.GetProperty("tail_to").GetInt64(),
        json.GetProperty("cap").GetInt64(),
        json.GetProperty("latency").GetInt64(),
        json.TryGetProperty("written", out var written) ? Written(written) : null)
    {
        TruePeakDb = Number(json, "true_peak_db"),
    };

    private static WrittenMemo Written(JsonElement json) => new(
        json.GetProperty("frames").GetInt64(),
        Text(json, "audio_sha256"),
        Text(json, "file_sha256"),
        Number(json, "integrated_lufs"),
        json.TryGetProperty("crest_db", out _) ? Number(json, "crest_db") : double.NaN, // builds before did not take it down; their keys are never asked for
        Number(json, "range_lu"),
        Number(json, "max_momentary_lufs"),
        Number(json, "max_short_term_lufs"),
        [.. json.GetProperty("gain_reduction").EnumerateArray().Select(Reduction)],
        json.TryGetProperty("null_peak", out _) ? Number(json, "null_peak") : null);

    private static GainReduction Reduction(JsonElement json) => new(Text(json, "processor"), Number(json, "median_db"), Number(json, "largest_db"))
    {
        Bus = json.TryGetProperty("bus", out var bus) ? bus.GetString() : null,
    };

    // As text: JSON has no infinity, and silence is −∞ dB.
    private static void Number(Utf8JsonWriter json, string key, double value) => json.WriteString(key, value.ToString("R", CultureInfo.InvariantCulture));

    private static string Text(JsonElement json, string key) => json.GetProperty(key).GetString() ?? throw new FormatException($"'{key}' is null.");

    private static double Number(JsonElement json, string key) => double.Parse(Text(json, key), CultureInfo.InvariantCulture);
}
