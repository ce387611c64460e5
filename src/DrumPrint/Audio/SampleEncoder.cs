using System.Buffers.Binary;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Audio;

/// <summary>Turns 64-bit samples into stored ones. Exact for samples on the encoding's grid; others are rounded half to
/// even, and integers stop at full scale.</summary>
/// <remarks>
/// The loop at the end of each method is the definition and does the remainder; the vector loop before it gives the same
/// bytes. There, adding 1.5 × 2^(52 − (bits − 1)) rounds a sample to its step and leaves the integer in the low bits of
/// the mantissa. Samples must be finite. The vectors stand here in person, for lanes hold doubles and these loops pack them
/// into bytes: half the loop is a shuffle that has no scalar form.
/// </remarks>
internal static class SampleEncoder
{
    /// <summary>Encodes samples one after another.</summary>
    public static void Encode(ReadOnlySpan<double> source, SampleEncoding encoding, Span<byte> target)
    {
        target = target[..(source.Length * encoding.Bytes())];
        switch (encoding)
        {
            case SampleEncoding.Pcm8:
                EncodePcm8(source, target);
                break;
            case SampleEncoding.Pcm16:
                EncodePcm16(source, target);
                break;
            case SampleEncoding.Pcm24:
                EncodePcm24(source, target);
                break;
            case SampleEncoding.Pcm32:
                EncodePcm32(source, target);
                break;
            case SampleEncoding.Float32:
                EncodeFloat32(source, target);
                break;
            case SampleEncoding.Float64:
                EncodeFloat64(source, target);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(encoding));
        }
    }

    private static void EncodePcm8(ReadOnlySpan<double> source, Span<byte> target)
    {
        for (var n = 0; n < source.Length; n++)
        {
            target[n] = (byte)(ToInteger(source[n], 1 << 7) + 128);
        }
    }

    private static void EncodePcm16(ReadOnlySpan<double> source, Span<byte> target)
    {
        var n = 0;
        if (BitConverter.IsLittleEndian)
        {
            ref var values = ref MemoryMarshal.GetReference(source);
            ref var samples = ref MemoryMarshal.GetReference(MemoryMarshal.Cast<byte, ushort>(target));
            for (; n <= source.Length - Vector128<ushort>.Count; n += Vector128<ushort>.Count)
            {
                var lower = LoadIntegers(ref values, n, 16);
                var upper = LoadIntegers(ref values, n + Vector128<uint>.Count, 16);
                Vector128.Narrow(lower, upper).StoreUnsafe(ref samples, (nuint)n);
            }
        }

        for (; n < source.Length; n++)
        {
            BinaryPrimitives.WriteInt16LittleEndian(target[(2 * n)..], (short)ToInteger(source[n], 1 << 15));
        }
    }

    private static void EncodePcm24(ReadOnlySpan<double> source, Span<byte> target)
    {
        var n = 0;
        if (BitConverter.IsLittleEndian)
        {
            // Four samples take 12 bytes, but 16 are stored; the next four, or the loop below, overwrite the rest.
            var places = Vector128.Create(0, 1, 2, 4, 5, 6, 8, 9, 10, 12, 13, 14, 0x80, 0x80, 0x80, (byte)0x80);
            ref var values = ref MemoryMarshal.GetReference(source);
            ref var bytes = ref MemoryMarshal.GetReference(target);
            for (; (3 * n) + Vector128<byte>.Count <= target.Length; n += Vector128<uint>.Count)
            {
                var packed = Vector128.Shuffle(LoadIntegers(ref values, n, 24).AsByte(), places);
                packed.StoreUnsafe(ref bytes, (nuint)(3 * n));
            }
        }

        for (; n < source.Length; n++)
        {
            var value = ToInteger(source[n], 1 << 23);
            target[3 * n] = (byte)value;
            target[(3 * n) + 1] = (byte)(value >> 8);
            target[(3 * n) + 2] = (byte)(value >> 16);
        }
    }

    private static void EncodePcm32(ReadOnlySpan<double> source, Span<byte> target)
    {
        var n = 0;
        if (BitConverter.IsLittleEndian)
        {
            ref var values = ref MemoryMarshal.GetReference(source);
            ref var samples = ref MemoryMarshal.GetReference(MemoryMarshal.Cast<byte, uint>(target));
            for (; n <= source.Length - Vector128<uint>.Count; n += Vector128<uint>.Count)
            {
                LoadIntegers(ref values, n, 32).StoreUnsafe(ref samples, (nuint)n);
            }
        }

        for (; n < source.Length; n++)
        {
            BinaryPrimitives.WriteInt32LittleEndian(target[(4 * n)..], ToInteger(source[n], 1L << 31));
        }
    }

    private static void EncodeFloat32(ReadOnlySpan<double> source, Span<byte> target)
    {
        var n = 0;
        if (BitConverter.IsLittleEndian)
        {
            ref var values = ref MemoryMarshal.GetReference(source);
            ref var samples = ref MemoryMarshal.GetReference(MemoryMarshal.Cast<byte, float>(target));
            for (; n <= source.Length - Vector128<float>.Count; n += Vector128<float>.Count)
            {
                var lower = Vector128.LoadUnsafe(ref values, (nuint)n);
                var upper = Vector128.LoadUnsafe(ref values, (nuint)(n + Vector128<double>.Count));
                Vector128.Narrow(lower, upper).StoreUnsafe(ref samples, (nuint)n);
            }
        }

        for (; n < source.Length; n++)
        {
            BinaryPrimitives.WriteSingleLittleEndian(target[(4 * n)..], (float)source[n]);
        }
    }

    private static void EncodeFloat64(ReadOnlySpan<double> source, Span<byte> target)
    {
        if (BitConverter.IsLittleEndian)
        {
            MemoryMarshal.AsBytes(source).CopyTo(target);
            return;
        }

        for (var n = 0; n < source.Length; n++)
        {
            BinaryPrimitives.WriteDoubleLittleEndian(target[(8 * n)..], source[n]);
        }
    }

    /// <summary>Loads four samples and rounds them to integers.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<uint> LoadIntegers(ref double source, int index, int bits)
    {
        var step = 1.0 / (1L << (bits - 1));
        var top = Vector128.Create(1 - step);
        var rounder = Vector128.Create(step * (3L << 51));
        var lower = Vector128.LoadUnsafe(ref source, (nuint)index);
        var upper = Vector128.LoadUnsafe(ref source, (nuint)(index + Vector128<double>.Count));
        lower = Vector128.ClampNative(lower, Vector128.Create(-1.0), top) + rounder;
        upper = Vector128.ClampNative(upper, Vector128.Create(-1.0), top) + rounder;
        return Vector128.Narrow(lower.AsUInt64(), upper.AsUInt64());
    }

    private static int ToInteger(double sample, long fullScale) =>
        (int)Math.Clamp(Math.Round(sample * fullScale), -fullScale, fullScale - 1);
}
