using System.Buffers.Binary;
using System.Text;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Audio;

/// <summary>Random access to the headers of an open file.</summary>
internal sealed class FileView(SafeFileHandle handle, string path)
{
    private const int MostChunks = 10_000;

    private int _chunks;

    public string Path { get; } = path;

    public long Length { get; } = RandomAccess.GetLength(handle);

    /// <summary>Reads exactly as many bytes as asked for.</summary>
    public byte[] Read(long offset, long count)
    {
        if (offset + count > Length)
        {
            throw Problem($"the file breaks off inside its header, after {Length} bytes.");
        }

        var bytes = new byte[count];
        ReadExactly(handle, bytes, offset, Path);
        return bytes;
    }

    public uint ReadUInt32LittleEndian(long offset) => BinaryPrimitives.ReadUInt32LittleEndian(Read(offset, 4));

    public uint ReadUInt32BigEndian(long offset) => BinaryPrimitives.ReadUInt32BigEndian(Read(offset, 4));

    public string ReadId(long offset) => Encoding.Latin1.GetString(Read(offset, 4));

    /// <summary>Takes down one more chunk; a real file has a handful, and a made-up one has as many as would fill the memory.</summary>
    public void CountChunk()
    {
        if (++_chunks > MostChunks)
        {
            throw Problem(FormattableString.Invariant($"the header is broken: it is in more than {MostChunks} parts."));
        }
    }

    /// <summary>Where the chunk after one that ends at <paramref name="end"/> begins.</summary>
    /// <remarks>Chunks begin at even offsets, but some writers forget the padding byte. So a chunk name may stand at
    /// the odd offset and none at the even one. The odd one is then right.</remarks>
    public long NextChunk(long end)
    {
        if (end % 2 == 0)
        {
            return end;
        }

        return HasChunkId(end) && !HasChunkId(end + 1) ? end : end + 1;
    }

    /// <summary>Whether whole chunks, and nothing else, follow up to the end of the file.</summary>
    public bool ChunksFillTheRest(long offset, bool bigEndian)
    {
        for (var chunks = 0; offset < Length; chunks++)
        {
            if (chunks > MostChunks || !HasChunkId(offset) || offset + 8 > Length)
            {
                return false;
            }

            offset += 8 + (bigEndian ? ReadUInt32BigEndian(offset + 4) : ReadUInt32LittleEndian(offset + 4));
            if (offset > Length)
            {
                return false;
            }

            offset = NextChunk(offset);
        }

        return true;
    }

    public AudioFileException Problem(string problem) => new(Path, problem);

    /// <summary>Fills the span from a file that is known to be long enough.</summary>
    public static void ReadExactly(SafeFileHandle handle, Span<byte> bytes, long offset, string path)
    {
        try
        {
            while (bytes.Length > 0)
            {
                var count = RandomAccess.Read(handle, bytes, offset);
                if (count == 0)
                {
                    throw new AudioFileException(path, "the file became shorter while it was being read.");
                }

                bytes = bytes[count..];
                offset += count;
            }
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Reading(path, e);
        }
    }

    private bool HasChunkId(long offset)
    {
        if (offset + 4 > Length)
        {
            return false;
        }

        foreach (var b in Read(offset, 4))
        {
            if (b is < 0x20 or > 0x7E)
            {
                return false;
            }
        }

        return true;
    }
}
