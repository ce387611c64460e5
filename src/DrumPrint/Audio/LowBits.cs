using System.Buffers.Binary;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Audio;

/// <summary>Integers that a file keeps in larger words: by the texts of the format their bits stand at the top, with zeros below. Some
/// writers put them at the bottom, where they would be read too soft by all the bits above them.</summary>
/// <remarks>Source for the top: WAVEFORMATEXTENSIBLE (wValidBitsPerSample), "left-justified within the container". That some writers do
/// otherwise is common practice, no source.</remarks>
internal static class LowBits
{
    private const int BufferBytes = 1 << 18;
    private const int LeastGap = 8;

    /// <summary>Whether the bits stand at the bottom, in every sample. The lowest byte is then in use, which bits at the top
    /// would leave empty. The bits above are nothing but the sign.</summary>
    /// <param name="handle">The open file.</param>
    /// <param name="samples">Where its samples are, lowest byte first.</param>
    /// <param name="bytes">Bytes of a word.</param>
    /// <param name="validBits">Bits in use. With less than a byte to spare the two cannot be told apart.</param>
    /// <param name="path">The file, for messages.</param>
    public static bool Are(SafeFileHandle handle, ChunkPlace samples, int bytes, int validBits, string path)
    {
        var gap = (8 * bytes) - validBits;
        if (gap < LeastGap || validBits < 1)
        {
            return false;
        }

        var isLowUsed = false;
        var buffer = new byte[Math.Min(BufferBytes / (4 * bytes) * (4 * bytes), samples.Bytes)];
        for (var at = 0L; at < samples.Bytes; at += buffer.Length)
        {
            var part = buffer.AsSpan(0, (int)Math.Min(buffer.Length, samples.Bytes - at));
            FileView.ReadExactly(handle, part, samples.Offset + at, path);
            for (var n = 0; n + bytes <= part.Length; n += bytes)
            {
                // At the top of 32 bits, so that the sign is where it belongs.
                var word = Word(part[n..], bytes) >> (8 * (sizeof(int) - bytes));
                if (word >> (validBits - 1) is not (0 or -1))
                {
                    return false;
                }

                isLowUsed |= (word & ((1 << gap) - 1)) != 0;
            }
        }

        return isLowUsed;
    }

    /// <summary>Moves bits from the bottom of their words to the top, in place.</summary>
    /// <param name="samples">Whole words, lowest byte first.</param>
    /// <param name="bytes">Bytes of a word.</param>
    /// <param name="gap">Bits above them.</param>
    public static void Raise(Span<byte> samples, int bytes, int gap)
    {
        Span<byte> word = stackalloc byte[sizeof(int)];
        for (var n = 0; n + bytes <= samples.Length; n += bytes)
        {
            BinaryPrimitives.WriteInt32LittleEndian(word, Word(samples[n..], bytes) >> (8 * (sizeof(int) - bytes)) << gap);
            word[..bytes].CopyTo(samples[n..]);
        }
    }

    // The word at the top of 32 bits.
    private static int Word(ReadOnlySpan<byte> from, int bytes) => bytes switch
    {
        2 => BinaryPrimitives.ReadInt16LittleEndian(from) << 16,
        3 => (from[0] << 8) | (from[1] << 16) | (from[2] << 24),
        _ => BinaryPrimitives.ReadInt32LittleEndian(from),
    };
}
