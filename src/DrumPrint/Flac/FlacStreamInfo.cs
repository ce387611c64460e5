using System.Buffers.Binary;

namespace DrumPrint.Flac;

/// <summary>What a stream says of itself at its start (RFC 9639, section 8.2).</summary>
/// <param name="LeastBlock">Fewest samples per channel of a frame, its last left aside.</param>
/// <param name="MostBlock">Most of them.</param>
/// <param name="RateHz">Sample rate.</param>
/// <param name="Channels">1 to 8.</param>
/// <param name="Bits">Bits of a sample, 4 to 32.</param>
/// <param name="Samples">Samples per channel; 0 where the stream does not say.</param>
/// <param name="Md5">MD5 of all samples, in lower-case hexadecimal; null where the stream does not say.</param>
/// <param name="Offset">Where in the file the first frame is.</param>
internal sealed record FlacStreamInfo(int LeastBlock, int MostBlock, int RateHz, int Channels, int Bits, long Samples, string? Md5, long Offset)
{
    /// <summary>Bytes it takes.</summary>
    public const int Bytes = 34;

    private const int FewestInBlock = 16;
    private const int FewestBits = 4;

    // Two bytes of mark, two of kinds, one of number and one of checksum in front; two of checksum behind.
    private const int BareFrameBytes = 8;

    /// <summary>Reads it.</summary>
    /// <exception cref="FlacDamageException">It says what no stream can be.</exception>
    public static FlacStreamInfo Read(ReadOnlySpan<byte> bytes, long offset)
    {
        var (least, most) = (BinaryPrimitives.ReadUInt16BigEndian(bytes), BinaryPrimitives.ReadUInt16BigEndian(bytes[2..]));
        var packed = BinaryPrimitives.ReadUInt64BigEndian(bytes[10..]);
        var md5 = bytes.Slice(18, 16);
        var info = new FlacStreamInfo(
            least,
            most,
            (int)(packed >> 44),
            (int)((packed >> 41) & 7) + 1,
            (int)((packed >> 36) & 31) + 1,
            (long)(packed & 0xF_FFFF_FFFF),
            md5.ContainsAnyExcept((byte)0) ? Convert.ToHexStringLower(md5) : null,
            offset);
        return most < FewestInBlock || least > most ? throw new FlacDamageException(FormattableString.Invariant($"its header gives blocks of {least} to {most} frames"))
            : info.Bits < FewestBits ? throw new FlacDamageException(FormattableString.Invariant($"its header gives samples of {info.Bits} bits; 4 to 32 are possible"))
            : info;
    }

    /// <summary>Most samples per channel that so many bytes can hold, when every frame is one value throughout.</summary>
    public long MostIn(long bytes) => ((bytes / (BareFrameBytes + (Channels * (1 + (Bits / 8))))) + 1) * MostBlock;
}
