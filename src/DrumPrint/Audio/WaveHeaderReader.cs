using System.Buffers.Binary;

namespace DrumPrint.Audio;

/// <summary>Reads the chunks of a WAV file: RIFF, RF64 (EBU Tech 3306) and BW64 (ITU-R BS.2088).</summary>
/// <remarks>Sizes of the outer chunk are not relied on, since many writers leave them wrong; the length of the samples
/// is held against the file. A last frame of which only a part is there is left out.</remarks>
internal sealed class WaveHeaderReader
{
    private const uint SizeElsewhere = 0xFFFF_FFFF;
    private const int OuterHeaderBytes = 12;
    private const int ChunkHeaderBytes = 8;
    private const int LongSizesBytes = 28;

    // What follows in a longer one is passed over: nobody's description or history is that long.
    private const long MostHeaderBytes = 1 << 20;

    private readonly FileView _file;
    private readonly bool _hasLongSizes;
    private readonly List<ChunkPlace> _extras = [];
    private readonly Dictionary<string, long> _longSizes = [];
    private WaveFormatChunk? _format;
    private BroadcastExtension? _broadcast;

    private WaveHeaderReader(FileView file, bool hasLongSizes)
    {
        _file = file;
        _hasLongSizes = hasLongSizes;
    }

    public static bool Recognises(string outerId) => outerId is "RIFF" or "RF64" or "BW64";

    public static AudioFileLayout Read(FileView file)
    {
        var kind = file.ReadId(8);
        if (kind != "WAVE")
        {
            throw file.Problem($"this is a RIFF file, but it holds '{kind}' instead of sound ('WAVE').");
        }

        return new WaveHeaderReader(file, file.ReadId(0) != "RIFF").Read();
    }

    private AudioFileLayout Read()
    {
        ChunkPlace? samples = null;
        for (long offset = OuterHeaderBytes; offset + ChunkHeaderBytes <= _file.Length;)
        {
            _file.CountChunk();
            var chunk = ChunkAt(offset, out var size);
            if (chunk.Id == "data" && samples is null)
            {
                samples = Samples(chunk, size);
                chunk = samples.Value;
            }
            else if (chunk.End > _file.Length)
            {
                if (samples is not null)
                {
                    break;
                }

                throw _file.Problem($"the header is broken: its chunk '{chunk.Id}' would be {chunk.Bytes} bytes long, but only {_file.Length - chunk.Offset} follow.");
            }
            else
            {
                Take(chunk);
            }

            offset = _file.NextChunk(chunk.End);
        }

        if (_format is null)
        {
            throw _file.Problem("the header is broken: it does not say what kind of samples follow (no 'fmt ' chunk).");
        }

        if (samples is not { } found)
        {
            throw _file.Problem("there are no samples in this file (no 'data' chunk).");
        }

        var frames = found.Bytes / _format.FrameBytes;
        var info = new AudioFileInfo(_file.Path, _format.SampleRate, _format.Channels, frames, _format.Encoding, _broadcast) { ValidBits = _format.ValidBits, ChannelMask = _format.ChannelMask };
        return new AudioFileLayout(info, found with { Bytes = frames * _format.FrameBytes }, ByteOrder.LittleEndian, _extras);
    }

    private ChunkPlace ChunkAt(long offset, out uint size)
    {
        var id = _file.ReadId(offset);
        size = _file.ReadUInt32LittleEndian(offset + 4);
        var bytes = size == SizeElsewhere && _longSizes.TryGetValue(id, out var longSize) ? longSize : size;
        return new ChunkPlace(id, offset + ChunkHeaderBytes, bytes);
    }

    private void Take(ChunkPlace chunk)
    {
        switch (chunk.Id)
        {
            case "ds64" when _hasLongSizes:
                TakeLongSizes(_file.Read(chunk.Offset, Math.Min(chunk.Bytes, MostHeaderBytes)));
                break;
            case "fmt " when _format is null:
                _format = WaveFormatChunk.Read(_file, chunk);
                break;
            case BroadcastChunk.Id when _broadcast is null:
                _broadcast = BroadcastChunk.FromBytes(_file.Read(chunk.Offset, Math.Min(chunk.Bytes, MostHeaderBytes)));
                break;
            case "fact" or "JUNK" or "junk" or "PAD " or "FLLR":
                break;
            default:
                _extras.Add(chunk);
                break;
        }
    }

    private void TakeLongSizes(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < LongSizesBytes)
        {
            throw _file.Problem($"the header is broken: its table of long sizes ('ds64') has {bytes.Length} bytes instead of at least {LongSizesBytes}.");
        }

        _longSizes["data"] = LongSize(bytes[8..]);
        var entries = BinaryPrimitives.ReadUInt32LittleEndian(bytes[24..]);
        for (var at = LongSizesBytes; entries > 0 && at + 12 <= bytes.Length; at += 12, entries--)
        {
            _longSizes[System.Text.Encoding.Latin1.GetString(bytes.Slice(at, 4))] = LongSize(bytes[(at + 4)..]);
        }
    }

    private long LongSize(ReadOnlySpan<byte> bytes)
    {
        var size = BinaryPrimitives.ReadInt64LittleEndian(bytes);
        return size >= 0 && size <= long.MaxValue / 2
            ? size
            : throw _file.Problem("the header is broken: its table of long sizes ('ds64') holds an impossible size.");
    }

    private ChunkPlace Samples(ChunkPlace chunk, uint size)
    {
        if (_format is null)
        {
            throw _file.Problem("the header is broken: the samples come before the description of their kind ('fmt ').");
        }

        var present = _file.Length - chunk.Offset;
        var isUnfinished = size == SizeElsewhere && !_longSizes.ContainsKey("data");
        var isEmpty = !isUnfinished && chunk.Bytes == 0;
        if (isUnfinished || (isEmpty && !_file.ChunksFillTheRest(chunk.Offset, bigEndian: false)))
        {
            throw AudioFileProblems.Unfinished(_file, present / _format.FrameBytes, _format.SampleRate);
        }

        return chunk.Bytes <= present
            ? chunk
            : throw AudioFileProblems.Truncated(_file, chunk.Bytes / _format.FrameBytes, present / _format.FrameBytes);
    }
}
