using DrumPrint.Audio;
using DrumPrint.Chains.Json;

namespace DrumPrint.Tickets;

/// <summary>What an excerpt carries in its own chunk: not how it was made, only what its bytes were.</summary>
internal static class ExcerptSeal
{
    private const string ChunkId = "dpex";
    private const string FormatKey = "excerpt_seal";
    private const int Format = 1;

    /// <summary>The chunk.</summary>
    /// <param name="audioSha256">Hash of the excerpt's samples; null before they are known.</param>
    public static WaveChunk ToChunk(string? audioSha256) => new(ChunkId, CanonicalJson.DenseBytes(json =>
    {
        json.WriteStartObject();
        json.WriteNumber(FormatKey, Format);
        json.WriteString(FileSeal.AudioKey, audioSha256 ?? FileSeal.Blank);
        json.WriteString(FileSeal.HeaderKey, FileSeal.Blank);
        json.WriteEndObject();
    }));
}
