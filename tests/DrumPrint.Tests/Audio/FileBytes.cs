using System.Buffers.Binary;
using System.Text;

namespace DrumPrint.Tests.Audio;

/// <summary>Builds audio files by hand, byte by byte, after the texts of their formats.</summary>
internal static class FileBytes
{
    public static byte[] Ascii(string text) => Encoding.Latin1.GetBytes(text);

    public static byte[] Little(ulong value, int bytes) => [.. Enumerable.Range(0, bytes).Select(i => (byte)(value >> (8 * i)))];

    public static byte[] Big(ulong value, int bytes) => [.. Little(value, bytes).Reverse()];

    public static byte[] Join(params byte[][] parts) => [.. parts.SelectMany(p => p)];

    /// <summary>A little-endian chunk with its padding.</summary>
    public static byte[] Chunk(string id, params byte[][] contents) => ChunkSaying(id, (uint)contents.Sum(c => c.Length), contents);

    /// <summary>A chunk whose header states any size.</summary>
    public static byte[] ChunkSaying(string id, uint size, params byte[][] contents) =>
        Join(Ascii(id), Little(size, 4), Join(contents), new byte[contents.Sum(c => c.Length) % 2]);

    /// <summary>A RIFF file of chunks.</summary>
    public static byte[] Riff(params byte[][] chunks) => Outer("RIFF", (uint)(4 + chunks.Sum(c => c.Length)), chunks);

    public static byte[] Outer(string id, uint size, params byte[][] chunks) => Join(Ascii(id), Little(size, 4), Ascii("WAVE"), Join(chunks));

    /// <summary>A plain format chunk.</summary>
    public static byte[] Format(int tag, int channels, int bits, int sampleRate = 48000) => Chunk("fmt ", FormatFields(tag, channels, bits, sampleRate));

    /// <summary>An extensible format chunk (WAVEFORMATEXTENSIBLE).</summary>
    public static byte[] ExtensibleFormat(int tag, int channels, int containerBits, int validBits, int sampleRate = 48000) => Chunk(
        "fmt ",
        FormatFields(0xFFFE, channels, containerBits, sampleRate),
        Little(22, 2),
        Little((ulong)validBits, 2),
        Little(3, 4),
        Little((ulong)tag, 2),
        Convert.FromHexString("000000001000800000AA00389B71"));

    /// <summary>The table of long sizes of RF64 (EBU Tech 3306): outer size, data size, frames, entries.</summary>
    public static byte[] LongSizes(ulong riffSize, ulong dataSize, ulong frames, params byte[][] entries) =>
        Chunk("ds64", Little(riffSize, 8), Little(dataSize, 8), Little(frames, 8), Little((ulong)entries.Length, 4), Join(entries));

    /// <summary>An AIFF chunk.</summary>
    public static byte[] BigChunk(string id, params byte[][] contents)
    {
        var bytes = Join(contents);
        return Join(Ascii(id), Big((ulong)bytes.Length, 4), bytes, new byte[bytes.Length % 2]);
    }

    /// <summary>An AIFF or AIFF-C file of chunks.</summary>
    public static byte[] Form(string kind, params byte[][] chunks) => Join(Ascii("FORM"), Big((ulong)(4 + chunks.Sum(c => c.Length)), 4), Ascii(kind), Join(chunks));

    /// <summary>The description of an AIFF file's samples. The rate is 48000 as an 80-bit number, from the AIFF 1.3 text's
    /// layout: exponent 16383 + 15, mantissa 48000 moved to the top.</summary>
    public static byte[] Common(int channels, uint frames, int bits, string compression = "") => BigChunk(
        "COMM",
        Big((ulong)channels, 2),
        Big(frames, 4),
        Big((ulong)bits, 2),
        Convert.FromHexString("400EBB80000000000000"),
        Ascii(compression),
        compression.Length > 0 ? [0, 0] : []);

    public static byte[] Sound(params byte[][] samples) => BigChunk("SSND", Big(0, 4), Big(0, 4), Join(samples));

    /// <summary>Changes 32 bits in place.</summary>
    public static byte[] With(byte[] bytes, int offset, uint value)
    {
        BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(offset), value);
        return bytes;
    }

    public static int IndexOf(byte[] bytes, string id) => bytes.AsSpan().IndexOf(Ascii(id));

    private static byte[] FormatFields(int tag, int channels, int bits, int sampleRate)
    {
        var frameBytes = channels * ((bits + 7) / 8);
        return Join(
            Little((ulong)tag, 2),
            Little((ulong)channels, 2),
            Little((ulong)sampleRate, 4),
            Little((ulong)(sampleRate * frameBytes), 4),
            Little((ulong)frameBytes, 2),
            Little((ulong)bits, 2));
    }
}
