using System.Text.Json;
using DrumPrint.Chains.Json;

namespace DrumPrint.Store;

/// <summary>What a kept signal is.</summary>
/// <param name="Key">Hash of everything that makes its sound.</param>
/// <param name="Name">The bus it was kept for, as people know it.</param>
/// <param name="Channels">1 or 2.</param>
/// <param name="Frames">Length.</param>
/// <param name="Latency">Frames by which it lags song time.</param>
/// <param name="End">Song frame after which its processors say it is silent.</param>
internal sealed record SignalHeader(string Key, string Name, int Channels, long Frames, long Latency, long End)
{
    // 24 hours at 768 kHz.
    private const long MostFrames = 24L * 3600 * 768_000;

    public byte[] ToBytes() => CanonicalJson.DenseBytes(json =>
    {
        json.WriteStartObject();
        json.WriteString("key", Key);
        json.WriteString("name", Name);
        json.WriteNumber("channels", Channels);
        json.WriteNumber("frames", Frames);
        json.WriteNumber("latency", Latency);
        json.WriteNumber("end", End);
        json.WriteEndObject();
    });

    public static SignalHeader Parse(ReadOnlyMemory<byte> utf8)
    {
        using var document = JsonDocument.Parse(utf8);
        var json = document.RootElement;
        return Checked(new SignalHeader(
            json.GetProperty("key").GetString() ?? "",
            json.GetProperty("name").GetString() ?? "",
            json.GetProperty("channels").GetInt32(),
            json.GetProperty("frames").GetInt64(),
            json.GetProperty("latency").GetInt64(),
            json.GetProperty("end").GetInt64()));
    }

    // What a store did not write may say anything, and room is made by it.
    private static SignalHeader Checked(SignalHeader header) =>
        header is { Channels: 1 or 2, Frames: >= 0 and <= MostFrames, Latency: >= 0 and <= MostFrames, End: >= 0 }
            ? header
            : throw new FormatException("No signal is like that.");
}
