using DrumPrint.Audio;
using DrumPrint.Dsp;
using FsCheck.Xunit;

namespace DrumPrint.Tests.Audio;

public sealed class RoundTripTests
{
    public static TheoryData<SampleEncoding, int> Shapes()
    {
        var data = new TheoryData<SampleEncoding, int>();
        foreach (var encoding in Planar.Encodings)
        {
            data.Add(encoding, 1);
            data.Add(encoding, 2);
            data.Add(encoding, 3);
        }

        data.Add(SampleEncoding.Pcm24, 32);
        return data;
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void What_is_written_is_read_back_to_the_bit(SampleEncoding encoding, int channels)
    {
        using var folder = new TestFolder();
        foreach (var frames in new[] { 0, 1, 2, 3, 481 })
        {
            var signal = Planar.Noise(encoding, channels, frames);

            Planar.Write(folder.File("a.wav"), signal, encoding);
            using var reader = AudioReader.Open(folder.File("a.wav"));
            var back = Planar.Read(reader);

            Assert.Equal((encoding, channels, (long)frames, 48000), (reader.Info.Encoding, reader.Info.Channels, reader.Info.Frames, reader.Info.SampleRate));
            Planar.AssertSame(signal, back);
            Assert.Equal(0, new FileInfo(folder.File("a.wav")).Length % 2);
        }
    }

    [Theory]
    [InlineData(SampleEncoding.Pcm16, 1)]
    [InlineData(SampleEncoding.Pcm24, 2)]
    [InlineData(SampleEncoding.Pcm24, 5)]
    [InlineData(SampleEncoding.Float32, 2)]
    public void Signals_longer_than_the_buffers_are_read_back_to_the_bit(SampleEncoding encoding, int channels)
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(encoding, channels, 300_001);

        Planar.Write(folder.File("a.wav"), signal, encoding);
        var back = Planar.Read(folder.File("a.wav"));

        Planar.AssertSame(signal, back);
    }

    [Property(MaxTest = 40)]
    public void Where_blocks_are_cut_changes_no_byte(byte kind, byte channels, ushort frames, ushort writeBlock, ushort readBlock)
    {
        using var folder = new TestFolder();
        var encoding = Planar.Encodings[kind % Planar.Encodings.Length];
        var signal = Planar.Noise(encoding, 1 + (channels % 6), frames);
        Planar.Write(folder.File("whole.wav"), signal, encoding);

        using var writer = WaveWriter.Create(folder.File("cut.wav"), new AudioFormat(48000, signal.Length), encoding, null, 0);
        Planar.Write(writer, signal, 1 + writeBlock);
        writer.Finish(frames);
        writer.Publish();
        using var reader = AudioReader.Open(folder.File("cut.wav"));
        var back = Planar.Read(reader, 1 + readBlock);

        Assert.Equal(File.ReadAllBytes(folder.File("whole.wav")), File.ReadAllBytes(folder.File("cut.wav")));
        Planar.AssertSame(signal, back);
        Assert.Equal(writer.AudioSha256, reader.AudioSha256);
    }

    [Fact]
    public void An_older_file_of_that_name_is_replaced()
    {
        using var folder = new TestFolder();
        Planar.Write(folder.File("a.wav"), Planar.Noise(SampleEncoding.Pcm24, 2, 9000), SampleEncoding.Pcm24);
        var second = Planar.Noise(SampleEncoding.Pcm16, 1, 10);

        Planar.Write(folder.File("a.wav"), second, SampleEncoding.Pcm16);

        Assert.Equal(second, Planar.Read(folder.File("a.wav")));
        Assert.Equal(["a.wav"], folder.Names);
    }
}
