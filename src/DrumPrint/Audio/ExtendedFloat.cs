using System.Buffers.Binary;

namespace DrumPrint.Audio;

/// <summary>The 80-bit extended number in which AIFF states its sample rate (IEEE 754 double extended, big-endian).
/// First come sign and 15-bit exponent, then a 64-bit mantissa with an explicit leading bit.</summary>
internal static class ExtendedFloat
{
    public const int Bytes = 10;

    private const int ExponentBias = 16383;

    public static double ToDouble(ReadOnlySpan<byte> bytes)
    {
        var head = BinaryPrimitives.ReadUInt16BigEndian(bytes);
        var mantissa = BinaryPrimitives.ReadUInt64BigEndian(bytes[2..]);
        var magnitude = Math.ScaleB(mantissa, (head & 0x7FFF) - ExponentBias - 63);
        return (head & 0x8000) == 0 ? magnitude : -magnitude;
    }
}
