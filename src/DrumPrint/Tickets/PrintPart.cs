using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Json;

namespace DrumPrint.Tickets;

/// <summary>What a print carries in its own chunk: all it takes to make it again, beside its raw files.</summary>
/// <remarks>
/// The chunk holds JSON without compression. A few kilobytes beside megabytes of sound are not worth a compressor. Its output
/// would have to be the same in every version of the runtime, and no other tool could read it.
/// </remarks>
public sealed record PrintPart
{
    /// <summary>Name of the chunk.</summary>
    public const string ChunkId = "dprt";

    /// <summary>Form of this record.</summary>
    public int Form { get; init; } = PartKeys.Format;

    /// <summary>Hash of the print's own samples, as taken down; null in a form without it, and before they are known.</summary>
    public string? AudioSha256 { get; init; }

    /// <summary>Version of the program that printed.</summary>
    public required string Engine { get; init; }

    /// <summary>Number of the print in its chain.</summary>
    public required int Number { get; init; }

    /// <summary>The chain, cut down to what the print depends on.</summary>
    public required Chain Chain { get; init; }

    /// <summary>Hash of that chain's canonical text, as taken down.</summary>
    public required string ChainSha256 { get; init; }

    /// <summary>Hash of the tempo map's canonical text, as taken down; null when the print does not depend on one.</summary>
    public string? TempoSha256 { get; init; }

    /// <summary>Word length.</summary>
    public required SampleEncoding Encoding { get; init; }

    /// <summary>Length of every print of the session.</summary>
    public required long Frames { get; init; }

    /// <summary>Common trim of all prints of the session.</summary>
    public double TrimDb { get; init; }

    /// <summary>Raw tracks it depends on, without hashes of whole files: tags of a raw track do not change a print.</summary>
    public required IReadOnlyList<RecordedInput> Tracks { get; init; }

    public required IReadOnlyList<RecordedInput> Impulses { get; init; }

    /// <summary>Reads the part out of a print.</summary>
    /// <returns>Null when the file carries none.</returns>
    /// <exception cref="AudioFileException">The file is not a readable sound file.</exception>
    /// <exception cref="TicketException">The part is damaged, of a later format, or names what this version has not.</exception>
    public static PrintPart? Read(string path)
    {
        using var reader = AudioReader.Open(path);
        var chunk = reader.Chunk(ChunkId);
        return chunk is null ? null : Parse(chunk.Data.ToArray(), path);
    }

    internal static PrintPart Parse(byte[] utf8, string path)
    {
        var (values, chain) = RecordReader.Read(utf8, path, PartKeys.Shape, PartKeys.Part, "print's part", allowsEmpty: true);
        return new PrintPart
        {
            Form = values.Whole(PartKeys.Part),
            AudioSha256 = values.Text(PartKeys.AudioSha256),
            Engine = values.Text(RecordKeys.Engine)!,
            Number = values.Whole(PartKeys.Number),
            Chain = chain,
            ChainSha256 = values.Text(RecordKeys.ChainSha256)!,
            TempoSha256 = values.Text(RecordKeys.TempoSha256),
            Encoding = EncodingKeys.Of(values),
            Frames = (long)values.Number(RecordKeys.Length)!.Value,
            TrimDb = values.Number(RecordKeys.Trim)!.Value,
            Tracks = RecordReader.Inputs(values, RecordKeys.Tracks),
            Impulses = RecordReader.Inputs(values, RecordKeys.Impulses),
        };
    }

    /// <summary>Whether another print came from the same chain and raw files, at the same word length and trim. Who made it and
    /// how long it is does not count.</summary>
    internal bool IsMadeLike(PrintPart other) => Made(this).AsSpan().SequenceEqual(Made(other));

    private static byte[] Made(PrintPart part) => (part with { Form = PartKeys.WithoutSeal, Engine = "", Frames = 0 }).ToChunk().Data.ToArray();

    internal WaveChunk ToChunk() => new(ChunkId, CanonicalJson.DenseBytes(json =>
    {
        json.WriteStartObject();
        json.WriteNumber(PartKeys.Part.Key, Form);
        if (Form > PartKeys.WithoutSeal)
        {
            json.WriteString(PartKeys.AudioSha256.Key, AudioSha256 ?? FileSeal.Blank);
            json.WriteString(PartKeys.HeaderSha256.Key, FileSeal.Blank);
        }

        json.WriteString(RecordKeys.Engine.Key, Engine);
        json.WriteNumber(PartKeys.Number.Key, Number);
        json.WriteString(RecordKeys.ChainSha256.Key, ChainSha256);
        RecordWriter.WriteText(json, RecordKeys.TempoSha256, TempoSha256);
        RecordWriter.Write(json, EncodingKeys.Encoding, EncodingKeys.Word(Encoding));
        json.WriteNumber(RecordKeys.Length.Key, Frames);
        json.WriteNumber(RecordKeys.Trim.Key, TrimDb);
        RecordWriter.WriteInputs(json, RecordKeys.Tracks.Key, Tracks);
        RecordWriter.WriteInputs(json, RecordKeys.Impulses.Key, Impulses);
        RecordWriter.WriteChain(json, Chain);
        json.WriteEndObject();
    }));
}
