using System.Buffers.Binary;
using System.Text;
using DrumPrint.Dsp;

namespace DrumPrint.Audio;

/// <summary>Makes everything that stands before the samples of a WAV file.</summary>
/// <remarks>
/// The order is: the outer header, 28 bytes, the format, the number of frames (floating point only), <c>bext</c>, extra
/// chunks, filler, the header of the samples. The 28 bytes hold long sizes (RF64, EBU Tech 3306) or filler. A file under
/// 4 GiB is RIFF, a larger one RF64, in the same room. So the header can be made anew once the length is known.
/// </remarks>
internal sealed class WaveHeader(AudioFormat format, SampleEncoding encoding)
{
    private const uint SizeElsewhere = 0xFFFF_FFFF;
    public const int OuterHeaderBytes = 12;
    private const int ChunkHeaderBytes = 8;
    private const int LongSizesBytes = 28;
    private const int MaxChannelsWithoutMask = 2;

    public int FrameBytes { get; } = format.Channels * encoding.Bytes();

    /// <summary>Bytes of a header without filler.</summary>
    public int LeastBytes(BroadcastExtension? broadcast, IReadOnlyList<WaveChunk> chunks) => ToBytes(0, broadcast, chunks, null)!.Length;

    /// <summary>Makes the header of a finished file.</summary>
    /// <param name="frames">Length of the samples.</param>
    /// <param name="broadcast">Contents of <c>bext</c>, where wanted.</param>
    /// <param name="chunks">Extra chunks.</param>
    /// <param name="length">Length to fill up to; the least possible when null.</param>
    /// <returns>Null when the contents do not fit into the length.</returns>
    public byte[]? ToBytes(long frames, BroadcastExtension? broadcast, IReadOnlyList<WaveChunk> chunks, int? length)
    {
        var dataBytes = frames * FrameBytes;
        var header = new MemoryStream();
        header.Write(new byte[OuterHeaderBytes + ChunkHeaderBytes + LongSizesBytes]);
        Put(header, "fmt ", Format());
        if (encoding.IsFloat())
        {
            Put(header, "fact", FrameCount(frames));
        }

        if (broadcast is not null)
        {
            Put(header, BroadcastChunk.Id, BroadcastChunk.ToBytes(broadcast));
        }

        foreach (var chunk in chunks)
        {
            Put(header, chunk.Id, chunk.Data.Span);
        }

        if (length is { } wanted)
        {
            var room = wanted - ChunkHeaderBytes - (int)header.Length;
            if (room != 0 && room < ChunkHeaderBytes)
            {
                return null;
            }

            if (room > 0)
            {
                Put(header, "JUNK", new byte[room - ChunkHeaderBytes]);
            }
        }

        PutChunkHeader(header, "data", 0);
        var bytes = header.ToArray();
        PutSizes(bytes, frames, dataBytes);
        return bytes;
    }

    private static void PutSizes(Span<byte> header, long frames, long dataBytes)
    {
        var riffBytes = header.Length + dataBytes + (dataBytes % 2) - ChunkHeaderBytes;
        var isLong = riffBytes > uint.MaxValue;
        Encoding.ASCII.GetBytes(isLong ? "RF64" : "RIFF", header);
        BinaryPrimitives.WriteUInt32LittleEndian(header[4..], isLong ? SizeElsewhere : (uint)riffBytes);
        Encoding.ASCII.GetBytes("WAVE", header[8..]);
        Encoding.ASCII.GetBytes(isLong ? "ds64" : "JUNK", header[OuterHeaderBytes..]);
        BinaryPrimitives.WriteInt32LittleEndian(header[(OuterHeaderBytes + 4)..], LongSizesBytes);
        if (isLong)
        {
            var sizes = header[(OuterHeaderBytes + ChunkHeaderBytes)..];
            BinaryPrimitives.WriteInt64LittleEndian(sizes, riffBytes);
            BinaryPrimitives.WriteInt64LittleEndian(sizes[8..], dataBytes);
            BinaryPrimitives.WriteInt64LittleEndian(sizes[16..], frames);
        }

        BinaryPrimitives.WriteUInt32LittleEndian(header[^4..], isLong ? SizeElsewhere : (uint)dataBytes);
    }

    private static byte[] FrameCount(long frames)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, (uint)Math.Min(frames, SizeElsewhere));
        return bytes;
    }

    private static void Put(MemoryStream header, string id, ReadOnlySpan<byte> contents)
    {
        PutChunkHeader(header, id, contents.Length);
        header.Write(contents);
        if (contents.Length % 2 != 0)
        {
            header.WriteByte(0);
        }
    }

    private static void PutChunkHeader(MemoryStream header, string id, int size)
    {
        Span<byte> bytes = stackalloc byte[ChunkHeaderBytes];
        if (id.Length != 4 || !Encoding.ASCII.TryGetBytes(id, bytes, out _))
        {
            throw new ArgumentException($"A chunk's name has four ASCII characters, unlike '{id}'.");
        }

        BinaryPrimitives.WriteInt32LittleEndian(bytes[4..], size);
        header.Write(bytes);
    }

    private byte[] Format()
    {
        var tag = encoding.IsFloat() ? WaveFormats.Float : WaveFormats.Pcm;
        var isExtensible = format.Channels > MaxChannelsWithoutMask;
        var bytes = new byte[isExtensible ? WaveFormats.ExtensibleBytes : encoding.IsFloat() ? WaveFormats.BasicBytes + 2 : WaveFormats.BasicBytes];
        var span = bytes.AsSpan();
        BinaryPrimitives.WriteUInt16LittleEndian(span, (ushort)(isExtensible ? WaveFormats.Extensible : tag));
        BinaryPrimitives.WriteUInt16LittleEndian(span[2..], (ushort)format.Channels);
        BinaryPrimitives.WriteInt32LittleEndian(span[4..], format.SampleRate);
        BinaryPrimitives.WriteUInt32LittleEndian(span[8..], (uint)Math.Min((long)format.SampleRate * FrameBytes, uint.MaxValue));
        BinaryPrimitives.WriteUInt16LittleEndian(span[12..], (ushort)FrameBytes);
        BinaryPrimitives.WriteUInt16LittleEndian(span[14..], (ushort)encoding.Bits());
        if (isExtensible)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(span[16..], WaveFormats.ExtensibleBytes - WaveFormats.BasicBytes - 2);
            BinaryPrimitives.WriteUInt16LittleEndian(span[18..], (ushort)encoding.Bits());
            BinaryPrimitives.WriteUInt32LittleEndian(span[20..], WaveFormats.ChannelMask(format.Channels));
            BinaryPrimitives.WriteUInt16LittleEndian(span[24..], (ushort)tag);
            WaveFormats.SubFormatTail.CopyTo(span[26..]);
        }

        return bytes;
    }
}
