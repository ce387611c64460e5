using System.Buffers.Binary;

namespace DrumPrint.Audio;

/// <summary>Turns 64-bit samples into stored ones. Exact for samples on the encoding's grid; others are rounded half to
/// even, and integers stop at full scale.</summary>
internal static class SampleEncoder
{
    /// <summary>Writes one channel into interleaved little-endian samples.</summary>
    public static void Encode(ReadOnlySpan<double> source, SampleEncoding encoding, int channels, int channel, Span<byte> target)
    {
        var width = encoding.Bytes();
        var step = channels * width;
        var at = channel * width;
        switch (encoding)
        {
            case SampleEncoding.Pcm8:
                for (var n = 0; n < source.Length; n++, at += step)
                {
                    target[at] = (byte)(ToInteger(source[n], 1 << 7) + 128);
                }

                break;
            case SampleEncoding.Pcm16:
                for (var n = 0; n < source.Length; n++, at += step)
                {
                    BinaryPrimitives.WriteInt16LittleEndian(target[at..], (short)ToInteger(source[n], 1 << 15));
                }

                break;
            case SampleEncoding.Pcm24:
                for (var n = 0; n < source.Length; n++, at += step)
                {
                    var value = ToInteger(source[n], 1 << 23);
                    target[at] = (byte)value;
                    target[at + 1] = (byte)(value >> 8);
                    target[at + 2] = (byte)(value >> 16);
                }

                break;
            case SampleEncoding.Pcm32:
                for (var n = 0; n < source.Length; n++, at += step)
                {
                    BinaryPrimitives.WriteInt32LittleEndian(target[at..], ToInteger(source[n], 1L << 31));
                }

                break;
            case SampleEncoding.Float32:
                for (var n = 0; n < source.Length; n++, at += step)
                {
                    BinaryPrimitives.WriteSingleLittleEndian(target[at..], (float)source[n]);
                }

                break;
            case SampleEncoding.Float64:
                for (var n = 0; n < source.Length; n++, at += step)
                {
                    BinaryPrimitives.WriteDoubleLittleEndian(target[at..], source[n]);
                }

                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(encoding));
        }
    }

    private static int ToInteger(double sample, long fullScale) =>
        (int)Math.Clamp(Math.Round(sample * fullScale), -fullScale, fullScale - 1);
}
