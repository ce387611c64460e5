using System.Buffers.Binary;
using System.Text;

namespace DrumPrint.Audio;

/// <summary>Reads the chunks of an AIFF or AIFF-C file whose samples are not compressed.</summary>
internal sealed class AiffHeaderReader
{
    private const int OuterHeaderBytes = 12;
    private const int ChunkHeaderBytes = 8;
    private const int CommonBytes = 18;
    private const int SoundHeaderBytes = 8;

    private readonly FileView _file;
    private readonly bool _hasCompression;
    private readonly List<ChunkPlace> _extras = [];

    private AiffHeaderReader(FileView file, bool hasCompression)
    {
        _file = file;
        _hasCompression = hasCompression;
    }

    public static bool Recognises(string outerId) => outerId == "FORM";

    public static AudioFileLayout Read(FileView file)
    {
        var kind = file.ReadId(8);
        if (kind is not ("AIFF" or "AIFC"))
        {
            throw file.Problem($"this is a FORM file, but it holds '{kind}' instead of sound ('AIFF' or 'AIFC').");
        }

        return new AiffHeaderReader(file, kind == "AIFC").Read();
    }

    private AudioFileLayout Read()
    {
        ChunkPlace? common = null;
        ChunkPlace? sound = null;
        for (long offset = OuterHeaderBytes; offset + ChunkHeaderBytes <= _file.Length;)
        {
            _file.CountChunk();
            var chunk = new ChunkPlace(_file.ReadId(offset), offset + ChunkHeaderBytes, _file.ReadUInt32BigEndian(offset + 4));
            switch (chunk.Id)
            {
                case "COMM" when common is null:
                    common = chunk;
                    break;
                case "SSND" when sound is null:
                    sound = chunk;
                    break;
                case "FVER":
                    break;
                default:
                    if (chunk.End <= _file.Length)
                    {
                        _extras.Add(chunk);
                    }

                    break;
            }

            offset = _file.NextChunk(chunk.End);
        }

        if (common is not { } description)
        {
            throw _file.Problem("the header is broken: it does not say what kind of samples there are (no 'COMM' chunk).");
        }

        return Layout(description, sound);
    }

    private AudioFileLayout Layout(ChunkPlace common, ChunkPlace? sound)
    {
        var least = _hasCompression ? CommonBytes + 4 : CommonBytes;
        if (common.Bytes < least)
        {
            throw _file.Problem($"the header is broken: the description of the samples ('COMM') has {common.Bytes} bytes instead of at least {least}.");
        }

        ReadOnlySpan<byte> bytes = _file.Read(common.Offset, least);
        int channels = BinaryPrimitives.ReadUInt16BigEndian(bytes);
        long frames = BinaryPrimitives.ReadUInt32BigEndian(bytes[2..]);
        int bits = BinaryPrimitives.ReadUInt16BigEndian(bytes[6..]);
        var rate = ExtendedFloat.ToDouble(bytes.Slice(8, ExtendedFloat.Bytes));
        if (channels == 0 || !(rate >= 1 && rate <= int.MaxValue && rate == Math.Floor(rate)))
        {
            throw _file.Problem($"the header says {channels} channels at {rate} Hz; expected are at least one channel and a whole number of hertz.");
        }

        var compression = _hasCompression ? Encoding.Latin1.GetString(bytes.Slice(CommonBytes, 4)) : "NONE";
        var (encoding, order) = EncodingOf(compression, bits);
        var frameBytes = channels * encoding.Bytes();
        var samples = Samples(sound, frames, frameBytes, (int)rate);
        var validBits = encoding.IsFloat() ? encoding.Bits() : bits;
        var info = new AudioFileInfo(_file.Path, (int)rate, channels, frames, encoding, null) { ValidBits = validBits };
        return new AudioFileLayout(info, samples, order, _extras);
    }

    private (SampleEncoding Encoding, ByteOrder Order) EncodingOf(string compression, int bits) => compression switch
    {
        "NONE" or "twos" or "in24" or "in32" => (IntegersOf(bits), ByteOrder.BigEndian),
        "sowt" => (IntegersOf(bits), ByteOrder.LittleEndianSigned),
        "raw " when bits <= 8 => (SampleEncoding.Pcm8, ByteOrder.LittleEndian),
        "fl32" or "FL32" => (SampleEncoding.Float32, ByteOrder.BigEndian),
        "fl64" or "FL64" => (SampleEncoding.Float64, ByteOrder.BigEndian),
        _ => throw AudioFileProblems.Unsupported(_file, $"compressed or of an unknown kind ('{compression}')"),
    };

    private SampleEncoding IntegersOf(int bits) => bits switch
    {
        >= 1 and <= 8 => SampleEncoding.Pcm8,
        > 8 and <= 16 => SampleEncoding.Pcm16,
        > 16 and <= 24 => SampleEncoding.Pcm24,
        > 24 and <= 32 => SampleEncoding.Pcm32,
        _ => throw AudioFileProblems.Unsupported(_file, $"{bits}-bit integers"),
    };

    private ChunkPlace Samples(ChunkPlace? sound, long frames, int frameBytes, int sampleRate)
    {
        if (sound is not { } chunk)
        {
            return frames == 0
                ? new ChunkPlace("SSND", _file.Length, 0)
                : throw AudioFileProblems.Truncated(_file, frames, 0);
        }

        var start = chunk.Offset + SoundHeaderBytes + _file.ReadUInt32BigEndian(chunk.Offset);
        var inFile = Math.Max(0, _file.Length - start) / frameBytes;
        var inChunk = Math.Max(0, Math.Min(chunk.End, _file.Length) - start) / frameBytes;
        var isOpen = chunk.Bytes <= SoundHeaderBytes && !_file.ChunksFillTheRest(chunk.Offset + SoundHeaderBytes, bigEndian: true);
        if (isOpen || (frames == 0 && inChunk > 0))
        {
            throw AudioFileProblems.Unfinished(_file, inFile, sampleRate);
        }

        if (frames <= inChunk)
        {
            return new ChunkPlace("SSND", start, frames * frameBytes);
        }

        throw chunk.End > _file.Length
            ? AudioFileProblems.Truncated(_file, frames, inChunk)
            : _file.Problem($"the header contradicts itself: it promises {frames} frames, but the chunk of the samples ('SSND') holds {inChunk}.");
    }
}
