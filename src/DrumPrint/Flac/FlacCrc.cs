namespace DrumPrint.Flac;

/// <summary>The two checksums of a frame (RFC 9639, sections 9.1.8 and 9.3).</summary>
internal static class FlacCrc
{
    private const int Polynomial8 = 0x07;
    private const int Polynomial16 = 0x8005;

    private static readonly byte[] Table8 = [.. Enumerable.Range(0, 256).Select(b => (byte)Remainder(b, Polynomial8, 8))];
    private static readonly ushort[] Table16 = [.. Enumerable.Range(0, 256).Select(b => (ushort)Remainder(b << 8, Polynomial16, 16))];

    /// <summary>Takes one byte of a frame's header into its checksum.</summary>
    public static byte Add8(byte crc, byte next) => Table8[crc ^ next];

    /// <summary>Takes bytes of a frame into its checksum.</summary>
    public static ushort Add16(ushort crc, ReadOnlySpan<byte> bytes)
    {
        foreach (var b in bytes)
        {
            crc = (ushort)((crc << 8) ^ Table16[(crc >> 8) ^ b]);
        }

        return crc;
    }

    // What is left of eight bits after the division, highest bit first.
    private static int Remainder(int value, int polynomial, int width)
    {
        for (var n = 0; n < 8; n++)
        {
            value = (value & (1 << (width - 1))) != 0 ? (value << 1) ^ polynomial : value << 1;
        }

        return value & ((1 << width) - 1);
    }
}
