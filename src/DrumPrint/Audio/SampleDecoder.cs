using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Audio;

/// <summary>Turns stored samples into 64-bit ones with full scale at 1. Exact for every encoding.</summary>
/// <remarks>
/// The loop at the end of each method is the definition and does the remainder; the vector loop before it gives the same
/// values. Integers are moved to the top of 32 bits and put into the mantissa of 2^21, where one unit is 2^−31. Taking
/// 2^21 away again leaves the sample.
/// </remarks>
internal static class SampleDecoder
{
    private const ulong TwoTo21 = 0x4140_0000_0000_0000;
    private const uint SignBit = 0x8000_0000;
    private const double MantissaOffset = (1 << 21) + 1.0;

    /// <summary>Decodes little-endian samples, as many as the target holds.</summary>
    public static void Decode(ReadOnlySpan<byte> source, SampleEncoding encoding, Span<double> target)
    {
        source = source[..(target.Length * encoding.Bytes())];
        switch (encoding)
        {
            case SampleEncoding.Pcm8:
                DecodePcm8(source, target);
                break;
            case SampleEncoding.Pcm16:
                DecodePcm16(source, target);
                break;
            case SampleEncoding.Pcm24:
                DecodePcm24(source, target);
                break;
            case SampleEncoding.Pcm32:
                DecodePcm32(source, target);
                break;
            case SampleEncoding.Float32:
                DecodeFloat32(source, target);
                break;
            case SampleEncoding.Float64:
                DecodeFloat64(source, target);
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

    private static void DecodePcm8(ReadOnlySpan<byte> source, Span<double> target)
    {
        for (var n = 0; n < target.Length; n++)
        {
            target[n] = (source[n] - 128) * (1.0 / (1 << 7));
        }
    }

    private static void DecodePcm16(ReadOnlySpan<byte> source, Span<double> target)
    {
        var n = 0;
        if (BitConverter.IsLittleEndian)
        {
            ref var samples = ref MemoryMarshal.GetReference(MemoryMarshal.Cast<byte, ushort>(source));
            ref var values = ref MemoryMarshal.GetReference(target);
            for (; n <= target.Length - Vector128<ushort>.Count; n += Vector128<ushort>.Count)
            {
                var (lower, upper) = Vector128.Widen(Vector128.LoadUnsafe(ref samples, (nuint)n));
                Store(lower << 16, ref values, n);
                Store(upper << 16, ref values, n + Vector128<uint>.Count);
            }
        }

        for (; n < target.Length; n++)
        {
            target[n] = BinaryPrimitives.ReadInt16LittleEndian(source[(2 * n)..]) * (1.0 / (1 << 15));
        }
    }

    private static void DecodePcm24(ReadOnlySpan<byte> source, Span<double> target)
    {
        var n = 0;
        if (BitConverter.IsLittleEndian)
        {
            // Four samples take 12 bytes, but 16 are loaded; an index past the end gives the zero byte below each sample.
            var places = Vector128.Create(0x80, 0, 1, 2, 0x80, 3, 4, 5, 0x80, 6, 7, 8, 0x80, 9, 10, (byte)11);
            ref var bytes = ref MemoryMarshal.GetReference(source);
            ref var values = ref MemoryMarshal.GetReference(target);
            for (; (3 * n) + Vector128<byte>.Count <= source.Length; n += Vector128<uint>.Count)
            {
                var loaded = Vector128.LoadUnsafe(ref bytes, (nuint)(3 * n));
                Store(Vector128.Shuffle(loaded, places).AsUInt32(), ref values, n);
            }
        }

        for (; n < target.Length; n++)
        {
            var value = source[3 * n] | (source[(3 * n) + 1] << 8) | ((sbyte)source[(3 * n) + 2] << 16);
            target[n] = value * (1.0 / (1 << 23));
        }
    }

    private static void DecodePcm32(ReadOnlySpan<byte> source, Span<double> target)
    {
        var n = 0;
        if (BitConverter.IsLittleEndian)
        {
            ref var samples = ref MemoryMarshal.GetReference(MemoryMarshal.Cast<byte, uint>(source));
            ref var values = ref MemoryMarshal.GetReference(target);
            for (; n <= target.Length - Vector128<uint>.Count; n += Vector128<uint>.Count)
            {
                Store(Vector128.LoadUnsafe(ref samples, (nuint)n), ref values, n);
            }
        }

        for (; n < target.Length; n++)
        {
            target[n] = BinaryPrimitives.ReadInt32LittleEndian(source[(4 * n)..]) * (1.0 / (1L << 31));
        }
    }

    private static void DecodeFloat32(ReadOnlySpan<byte> source, Span<double> target)
    {
        var n = 0;
        if (BitConverter.IsLittleEndian)
        {
            ref var samples = ref MemoryMarshal.GetReference(MemoryMarshal.Cast<byte, float>(source));
            ref var values = ref MemoryMarshal.GetReference(target);
            for (; n <= target.Length - Vector128<float>.Count; n += Vector128<float>.Count)
            {
                var (lower, upper) = Vector128.Widen(Vector128.LoadUnsafe(ref samples, (nuint)n));
                lower.StoreUnsafe(ref values, (nuint)n);
                upper.StoreUnsafe(ref values, (nuint)(n + Vector128<double>.Count));
            }
        }

        for (; n < target.Length; n++)
        {
            target[n] = BinaryPrimitives.ReadSingleLittleEndian(source[(4 * n)..]);
        }
    }

    private static void DecodeFloat64(ReadOnlySpan<byte> source, Span<double> target)
    {
        if (BitConverter.IsLittleEndian)
        {
            source.CopyTo(MemoryMarshal.AsBytes(target));
            return;
        }

        for (var n = 0; n < target.Length; n++)
        {
            target[n] = BinaryPrimitives.ReadDoubleLittleEndian(source[(8 * n)..]);
        }
    }

    /// <summary>Stores four samples that fill 32 bits.</summary>
    private static void Store(Vector128<uint> samples, ref double target, int index)
    {
        var offset = Vector128.Create(MantissaOffset);
        var mantissa = Vector128.Create(TwoTo21);
        var (lower, upper) = Vector128.Widen(samples ^ Vector128.Create(SignBit));
        ((lower | mantissa).AsDouble() - offset).StoreUnsafe(ref target, (nuint)index);
        ((upper | mantissa).AsDouble() - offset).StoreUnsafe(ref target, (nuint)(index + Vector128<double>.Count));
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
