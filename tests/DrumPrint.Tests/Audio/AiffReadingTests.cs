using DrumPrint.Audio;
using static DrumPrint.Tests.Audio.FileBytes;

namespace DrumPrint.Tests.Audio;

public sealed class AiffReadingTests
{
    public static TheoryData<string, byte[], SampleEncoding, double[][]> Files => new()
    {
        { "16 bits", Form("AIFF", Common(2, 2, 16), Sound(Big(0x4000, 2), Big(0xC000, 2), Big(0x7FFF, 2), Big(0x8000, 2))), SampleEncoding.Pcm16, [[0.5, 32767 / 32768.0], [-0.5, -1]] },
        { "24 bits, odd", Form("AIFF", Common(1, 3, 24), Sound(Big(0x400000, 3), Big(1, 3), Big(0xFFFFFF, 3))), SampleEncoding.Pcm24, [[0.5, 1 / 8388608.0, -1 / 8388608.0]] },
        { "8 bits, signed", Form("AIFF", Common(1, 3, 8), Sound([0x40, 0x80, 0xFF])), SampleEncoding.Pcm8, [[0.5, -1, -1 / 128.0]] },
        { "20 bits", Form("AIFF", Common(1, 1, 20), Sound(Big(0xC00000, 3))), SampleEncoding.Pcm24, [[-0.5]] },
        { "32 bits", Form("AIFF", Common(1, 1, 32), Sound(Big(0x80000000, 4))), SampleEncoding.Pcm32, [[-1]] },
        { "samples before description", Form("AIFF", Sound(Big(0x4000, 2)), BigChunk("NAME", Ascii("odd")), Common(1, 1, 16)), SampleEncoding.Pcm16, [[0.5]] },
        { "samples set back", Form("AIFF", Common(1, 1, 16), BigChunk("SSND", Big(4, 4), Big(0, 4), [9, 9, 9, 9], Big(0x4000, 2))), SampleEncoding.Pcm16, [[0.5]] },
        { "no samples", Form("AIFF", Common(1, 0, 16), Sound()), SampleEncoding.Pcm16, [[]] },
        { "AIFF-C plain", Form("AIFC", Common(1, 1, 16, "NONE"), Sound(Big(0x4000, 2))), SampleEncoding.Pcm16, [[0.5]] },
        { "AIFF-C little-endian", Form("AIFC", Common(1, 2, 24, "sowt"), Sound(Little(0x400000, 3), Little(0xC00000, 3))), SampleEncoding.Pcm24, [[0.5, -0.5]] },
        { "AIFF-C float", Form("AIFC", Common(1, 2, 32, "fl32"), Sound(Big(BitConverter.SingleToUInt32Bits(1.5f), 4), Big(BitConverter.SingleToUInt32Bits(-0.1f), 4))), SampleEncoding.Float32, [[1.5, -0.1f]] },
        { "AIFF-C long float", Form("AIFC", Common(1, 1, 64, "fl64"), Sound(Big(BitConverter.DoubleToUInt64Bits(Math.PI), 8))), SampleEncoding.Float64, [[Math.PI]] },
    };

    [Theory]
    [MemberData(nameof(Files))]
    public void Every_uncompressed_kind_is_read(string kind, byte[] bytes, SampleEncoding encoding, double[][] expected)
    {
        using var folder = new TestFolder();

        using var reader = AudioReader.Open(folder.Put($"{kind}.aif", bytes));

        Assert.Equal((encoding, 48000), (reader.Info.Encoding, reader.Info.SampleRate));
        Assert.Equal(expected, Planar.Read(reader));
    }

    [Theory]
    [InlineData("400EAC44000000000000", 44100)]
    [InlineData("400EBB80000000000000", 48000)]
    [InlineData("400FBB80000000000000", 96000)]
    [InlineData("3FFF8000000000000000", 1)]
    [InlineData("BFFF8000000000000000", -1)]
    [InlineData("00000000000000000000", 0)]
    [InlineData("3FFEC000000000000000", 0.75)]
    public void Eighty_bit_numbers_are_read(string bytes, double expected) =>
        Assert.Equal(expected, ExtendedFloat.ToDouble(Convert.FromHexString(bytes)));

    [Fact]
    public void The_same_sound_has_the_same_hash_in_either_order_of_bytes_and_another_sound_has_not()
    {
        using var folder = new TestFolder();
        byte[] samples = [1, 2, 3, 4, 5, 6];
        byte[] turned = [3, 2, 1, 6, 5, 4];

        var big = FileHash.AudioSha256(folder.Put("big.aif", Form("AIFF", Common(1, 2, 24), Sound(samples))));
        var little = FileHash.AudioSha256(folder.Put("little.wav", Riff(Format(1, 1, 24), Chunk("data", turned))));
        var other = FileHash.AudioSha256(folder.Put("other.wav", Riff(Format(1, 1, 24), Chunk("data", samples))));

        Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(turned)), big);
        Assert.Equal(big, little);
        Assert.NotEqual(big, other);
    }
}
