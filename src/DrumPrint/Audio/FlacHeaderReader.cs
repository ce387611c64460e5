using DrumPrint.Flac;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Audio;

/// <summary>Reads the blocks in front of a FLAC stream (RFC 9639, section 8).</summary>
/// <remarks>Chunks of the WAV file it was coded from are read where they were kept, as its broadcast extension and the names of its
/// channels: in blocks of the application <c>riff</c>, one chunk in each.</remarks>
internal static class FlacHeaderReader
{
    private const int MarkBytes = 4;
    private const int BlockHeaderBytes = 4;
    private const int ChunkHeaderBytes = 8;
    private const int StreamInfo = 0;
    private const int Application = 2;
    private const int Forbidden = 127;
    private const long MostHours = 24;

    public static bool Recognises(string id) => id == "fLaC";

    public static AudioFileLayout Read(FileView file, SafeFileHandle handle)
    {
        FlacStreamInfo? stream = null;
        BroadcastExtension? broadcast = null;
        var extras = new List<ChunkPlace>();
        var offset = (long)MarkBytes;
        for (var isLast = false; !isLast;)
        {
            file.CountChunk();
            var header = file.ReadUInt32BigEndian(offset);
            isLast = header >> 31 != 0;
            var (kind, bytes) = ((int)(header >> 24) & 127, (int)(header & 0xFF_FFFF));
            offset += BlockHeaderBytes;
            if (kind == Forbidden || (kind == StreamInfo) != stream is null || (kind == StreamInfo && bytes != FlacStreamInfo.Bytes))
            {
                throw file.Problem("the header is broken: it does not begin with the one description of its stream (STREAMINFO), or holds what is no part of the format.");
            }

            if (kind == StreamInfo)
            {
                stream = Stream(file, offset);
            }
            else if (kind == Application && bytes >= MarkBytes + ChunkHeaderBytes && file.ReadId(offset) == "riff")
            {
                TakeChunk(file, offset + MarkBytes, bytes - MarkBytes, ref broadcast, extras);
            }

            offset += bytes;
        }

        if (offset > file.Length)
        {
            throw file.Problem($"the file breaks off inside its header, after {file.Length} bytes.");
        }

        return Layout(file, handle, stream! with { Offset = offset }, broadcast, extras);
    }

    /// <summary>Refuses a length that no recording has, before anything is made by it: a few bytes may say days of silence.</summary>
    public static void RequireUsual(long frames, int rateHz, string path)
    {
        if (frames > MostHours * 3600 * rateHz)
        {
            throw new AudioFileException(path, FormattableString.Invariant($"it says that it is longer than {MostHours} hours; FLAC files up to that are read."));
        }
    }

    private static AudioFileLayout Layout(FileView file, SafeFileHandle handle, FlacStreamInfo stream, BroadcastExtension? broadcast, List<ChunkPlace> extras)
    {
        if (stream.RateHz is < AudioReader.LowestRateHz or > AudioReader.HighestRateHz)
        {
            throw AudioFileProblems.UnusualRate(file.Path, stream.RateHz);
        }

        var most = stream.MostIn(file.Length - stream.Offset);
        if (stream.Samples > most)
        {
            throw file.Problem(FormattableString.Invariant($"the file is cut short: its header promises {stream.Samples} frames, and {file.Length} bytes hold {most} at most. Copy it again from its source."));
        }

        var frames = stream.Samples > 0 ? stream.Samples : FlacBytes.Count(handle, stream, file.Path);
        RequireUsual(frames, stream.RateHz, file.Path);
        var encoding = stream.Bits switch
        {
            <= 8 => SampleEncoding.Pcm8,
            <= 16 => SampleEncoding.Pcm16,
            <= 24 => SampleEncoding.Pcm24,
            _ => SampleEncoding.Pcm32,
        };
        var info = new AudioFileInfo(file.Path, stream.RateHz, stream.Channels, frames, encoding, broadcast) { ValidBits = stream.Bits };
        return new AudioFileLayout(info, new ChunkPlace("fLaC", stream.Offset, file.Length - stream.Offset), ByteOrder.LittleEndian, extras) { Flac = stream };
    }

    private static FlacStreamInfo Stream(FileView file, long offset)
    {
        try
        {
            return FlacStreamInfo.Read(file.Read(offset, FlacStreamInfo.Bytes), 0);
        }
        catch (FlacDamageException e)
        {
            throw file.Problem($"the header is broken: {e.Problem}.");
        }
    }

    // The first of these blocks holds the outer header of the WAV file, the last ones describe format and samples.
    private static void TakeChunk(FileView file, long offset, int bytes, ref BroadcastExtension? broadcast, List<ChunkPlace> extras)
    {
        var id = file.ReadId(offset);
        var chunk = new ChunkPlace(id, offset + ChunkHeaderBytes, Math.Min(file.ReadUInt32LittleEndian(offset + MarkBytes), bytes - ChunkHeaderBytes));
        if (chunk.End > file.Length || id is "RIFF" or "RF64" or "BW64" or "fmt " or "data" or "fact" or "ds64" or "JUNK" or "junk" or "PAD " or "FLLR")
        {
            return;
        }

        if (id == BroadcastChunk.Id)
        {
            broadcast ??= BroadcastChunk.FromBytes(file.Read(chunk.Offset, chunk.Bytes));
        }
        else
        {
            extras.Add(chunk);
        }
    }
}
