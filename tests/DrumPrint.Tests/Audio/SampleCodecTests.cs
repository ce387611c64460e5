using DrumPrint.Audio;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Tests.Audio;

/// <summary>The fast codecs against one sample at a time, in big integers.</summary>
public sealed class SampleCodecTests
{
    public static TheoryData<SampleEncoding> Encodings => [.. Planar.Encodings];

    [Theory]
    [MemberData(nameof(Encodings))]
    public void Every_sample_decodes_to_its_integer_over_full_scale(SampleEncoding encoding)
    {
        for (var count = 0; count < 70; count++)
        {
            var bytes = RandomBytes(encoding, count);
            var decoded = new double[count];

            SampleDecoder.Decode(bytes, encoding, decoded);

            var expected = Enumerable.Range(0, count).Select(n => DecodeOne(bytes.AsSpan(n * encoding.Bytes(), encoding.Bytes()), encoding));
            Assert.Equal(expected, decoded);
        }
    }

    [Theory]
    [MemberData(nameof(Encodings))]
    public void What_was_decoded_encodes_to_the_same_bytes(SampleEncoding encoding)
    {
        for (var count = 0; count < 70; count++)
        {
            var bytes = RandomBytes(encoding, count);
            var decoded = new double[count];
            var encoded = new byte[bytes.Length];

            SampleDecoder.Decode(bytes, encoding, decoded);
            SampleEncoder.Encode(decoded, encoding, encoded);

            Assert.Equal(bytes, encoded);
        }
    }

    [Theory]
    [InlineData(SampleEncoding.Pcm8)]
    [InlineData(SampleEncoding.Pcm16)]
    [InlineData(SampleEncoding.Pcm24)]
    [InlineData(SampleEncoding.Pcm32)]
    public void Integers_round_half_to_even_and_stop_at_full_scale(SampleEncoding encoding)
    {
        var step = Planar.Step(encoding);
        double[] values =
        [
            0, -0.0, 0.5 * step, 1.5 * step, 2.5 * step, -0.5 * step, -1.5 * step, 0.49 * step, 0.51 * step, -0.51 * step,
            1, 1 - step, 1 - (0.5 * step), 1 - (1.5 * step), -1, -1 - step, -1 + (0.5 * step), -1 + (1.5 * step), 7, -7, 1e300, -1e300, 1e-300, double.Epsilon,
        ];
        var steps = values.Select(v => (decimal)(Math.Clamp(v, -2, 2) / step));
        var expected = steps.Select(v => Math.Clamp((double)Math.Round(v, MidpointRounding.ToEven) * step, -1, 1 - step)).ToArray();

        for (var from = 0; from < values.Length; from++)
        {
            var encoded = new byte[(values.Length - from) * encoding.Bytes()];
            var decoded = new double[values.Length - from];
            SampleEncoder.Encode(values.AsSpan(from), encoding, encoded);
            SampleDecoder.Decode(encoded, encoding, decoded);

            Assert.Equal(expected[from..], decoded);
        }
    }

    [Fact]
    public void Floats_round_to_the_nearest_and_keep_what_is_beyond_full_scale()
    {
        double[] values = [1.5, -3, 0.1, Math.PI, 1 + Math.Pow(2, -24), 1 + (3 * Math.Pow(2, -24)), 1e-310];
        var encoded = new byte[4 * values.Length];

        SampleEncoder.Encode(values, SampleEncoding.Float32, encoded);

        Assert.Equal(values.Select(v => (float)v), Enumerable.Range(0, values.Length).Select(n => BitConverter.ToSingle(encoded, 4 * n)));
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void The_first_sample_that_is_not_finite_is_found(double bad)
    {
        for (var length = 1; length < 12; length++)
        {
            for (var at = 0; at < length; at++)
            {
                var samples = new double[length];
                samples.AsSpan().Fill(double.MaxValue);
                samples[at] = bad;
                samples[^1] = bad;

                Assert.Equal(at, NotFinite.IndexIn(samples));
            }
        }

        Assert.Equal(-1, NotFinite.IndexIn([1, double.MinValue, double.Epsilon]));
    }

    private static byte[] RandomBytes(SampleEncoding encoding, int count)
    {
        var noise = new CounterNoise((ulong)count);
        var bytes = Enumerable.Range(0, count * encoding.Bytes()).Select(n => (byte)noise.Bits(n)).ToArray();
        if (encoding.IsFloat())
        {
            // Keeps the exponent away from infinity and not-a-number.
            for (var n = encoding.Bytes() - 1; n < bytes.Length; n += encoding.Bytes())
            {
                bytes[n] &= 0xBF;
            }
        }

        return bytes;
    }

    private static double DecodeOne(ReadOnlySpan<byte> bytes, SampleEncoding encoding) => encoding switch
    {
        SampleEncoding.Float32 => BitConverter.ToSingle(bytes),
        SampleEncoding.Float64 => BitConverter.ToDouble(bytes),
        SampleEncoding.Pcm8 => (bytes[0] - 128) / 128.0,
        _ => (double)new System.Numerics.BigInteger(bytes) / Math.Pow(2, encoding.Bits() - 1),
    };
}
