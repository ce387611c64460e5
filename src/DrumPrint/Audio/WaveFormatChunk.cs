using System.Buffers.Binary;

namespace DrumPrint.Audio;

/// <summary>What the format chunk of a WAV file says.</summary>
internal sealed record WaveFormatChunk(int SampleRate, int Channels, SampleEncoding Encoding, int ValidBits)
{
    public uint ChannelMask { get; private init; }

    public int FrameBytes => Channels * Encoding.Bytes();

    public static WaveFormatChunk Read(FileView file, ChunkPlace chunk)
    {
        if (chunk.Bytes < WaveFormats.BasicBytes)
        {
            throw file.Problem($"the header is broken: the description of the samples ('fmt ') has {chunk.Bytes} bytes instead of at least {WaveFormats.BasicBytes}.");
        }

        ReadOnlySpan<byte> bytes = file.Read(chunk.Offset, Math.Min(chunk.Bytes, WaveFormats.ExtensibleBytes));
        int tag = BinaryPrimitives.ReadUInt16LittleEndian(bytes);
        int channels = BinaryPrimitives.ReadUInt16LittleEndian(bytes[2..]);
        var rate = BinaryPrimitives.ReadUInt32LittleEndian(bytes[4..]);
        int frameBytes = BinaryPrimitives.ReadUInt16LittleEndian(bytes[12..]);
        int bits = BinaryPrimitives.ReadUInt16LittleEndian(bytes[14..]);
        if (channels == 0 || rate is 0 or > int.MaxValue)
        {
            throw file.Problem($"the header is broken: it says {channels} channels at {rate} Hz.");
        }

        var validBits = bits;
        uint mask = 0;
        if (tag == WaveFormats.Extensible)
        {
            if (bytes.Length < WaveFormats.ExtensibleBytes)
            {
                throw file.Problem($"the header is broken: the extended description of the samples has {bytes.Length} bytes instead of {WaveFormats.ExtensibleBytes}.");
            }

            validBits = BinaryPrimitives.ReadUInt16LittleEndian(bytes[18..]);
            mask = BinaryPrimitives.ReadUInt32LittleEndian(bytes[20..]);
            tag = BinaryPrimitives.ReadUInt16LittleEndian(bytes[24..]);
            if (!bytes.Slice(26, WaveFormats.SubFormatTail.Length).SequenceEqual(WaveFormats.SubFormatTail))
            {
                throw AudioFileProblems.Unsupported(file, "of a kind private to one maker");
            }
        }

        // A plain description may keep its bits in larger words too, such as 24 in 4 bytes. Then only the bytes of a frame say
        // so.
        var word = frameBytes / channels * 8;
        var isLarger = tag == WaveFormats.Pcm && bits > 8 && frameBytes % channels == 0 && word > (bits + 7) / 8 * 8 && word <= 32;
        var encoding = EncodingOf(file, tag, isLarger ? word : bits);
        if (frameBytes != channels * encoding.Bytes())
        {
            throw file.Problem($"the header is broken: {channels} channels of {bits} bits do not make {frameBytes} bytes a frame.");
        }

        return new WaveFormatChunk((int)rate, channels, encoding, validBits > 0 && validBits <= encoding.Bits() ? validBits : encoding.Bits()) { ChannelMask = mask };
    }

    private static SampleEncoding EncodingOf(FileView file, int tag, int bits) => (tag, bits) switch
    {
        (WaveFormats.Pcm, >= 1 and <= 8) => SampleEncoding.Pcm8,
        (WaveFormats.Pcm, > 8 and <= 16) => SampleEncoding.Pcm16,
        (WaveFormats.Pcm, > 16 and <= 24) => SampleEncoding.Pcm24,
        (WaveFormats.Pcm, > 24 and <= 32) => SampleEncoding.Pcm32,
        (WaveFormats.Float, 32) => SampleEncoding.Float32,
        (WaveFormats.Float, 64) => SampleEncoding.Float64,
        (WaveFormats.Pcm, _) => throw AudioFileProblems.Unsupported(file, $"{bits}-bit integers"),
        (WaveFormats.Float, _) => throw AudioFileProblems.Unsupported(file, $"{bits}-bit floating point"),
        _ => throw AudioFileProblems.Unsupported(file, $"compressed or of an unknown kind ({WaveFormats.Name(tag)})"),
    };
}
