using System.Buffers.Binary;
using System.Runtime.InteropServices;

namespace DrumPrint.Audio;

/// <summary>Turns stored samples into 64-bit ones with full scale at 1. Exact for every encoding.</summary>
internal static class SampleDecoder
{
    /// <summary>Reads one channel out of interleaved little-endian samples.</summary>
    public static void Decode(ReadOnlySpan<byte> source, SampleEncoding encoding, int channels, int channel, Span<double> target)
    {
        var width = encoding.Bytes();
        var step = channels * width;
        var at = channel * width;
        switch (encoding)
        {
            case SampleEncoding.Pcm8:
                for (var n = 0; n < target.Length; n++, at += step)
                {
                    target[n] = (source[at] - 128) * (1.0 / (1 << 7));
                }

                break;
            case SampleEncoding.Pcm16:
                for (var n = 0; n < target.Length; n++, at += step)
                {
                    target[n] = BinaryPrimitives.ReadInt16LittleEndian(source[at..]) * (1.0 / (1 << 15));
                }

                break;
            case SampleEncoding.Pcm24:
                for (var n = 0; n < target.Length; n++, at += step)
                {
                    var value = source[at] | (source[at + 1] << 8) | ((sbyte)source[at + 2] << 16);
                    target[n] = value * (1.0 / (1 << 23));
                }

                break;
            case SampleEncoding.Pcm32:
                for (var n = 0; n < target.Length; n++, at += step)
                {
                    target[n] = BinaryPrimitives.ReadInt32LittleEndian(source[at..]) * (1.0 / (1L << 31));
                }

                break;
            case SampleEncoding.Float32:
                for (var n = 0; n < target.Length; n++, at += step)
                {
                    target[n] = BinaryPrimitives.ReadSingleLittleEndian(source[at..]);
                }

                break;
            case SampleEncoding.Float64:
                for (var n = 0; n < target.Length; n++, at += step)
                {
                    target[n] = BinaryPrimitives.ReadDoubleLittleEndian(source[at..]);
                }

                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(encoding));
        }
    }

    /// <summary>Brings samples into the form <see cref="Decode"/> reads, in place.</summary>
    public static void ToLittleEndian(Span<byte> bytes, SampleEncoding encoding, ByteOrder order)
    {
        if (order == ByteOrder.LittleEndian)
        {
            return;
        }

        if (encoding == SampleEncoding.Pcm8)
        {
            foreach (ref var b in bytes)
            {
                b ^= 0x80;
            }
        }
        else if (order == ByteOrder.BigEndian)
        {
            Reverse(bytes, encoding.Bytes());
        }
    }

    private static void Reverse(Span<byte> bytes, int width)
    {
        switch (width)
        {
            case 2:
                var shorts = MemoryMarshal.Cast<byte, short>(bytes);
                BinaryPrimitives.ReverseEndianness(shorts, shorts);
                break;
            case 4:
                var integers = MemoryMarshal.Cast<byte, int>(bytes);
                BinaryPrimitives.ReverseEndianness(integers, integers);
                break;
            case 8:
                var longs = MemoryMarshal.Cast<byte, long>(bytes);
                BinaryPrimitives.ReverseEndianness(longs, longs);
                break;
            default:
                for (var n = 0; n < bytes.Length; n += width)
                {
                    (bytes[n], bytes[n + 2]) = (bytes[n + 2], bytes[n]);
                }

                break;
        }
    }
}
