using System.Buffers.Binary;
using System.Security.Cryptography;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Files;

namespace DrumPrint.Tests.Audio;

public sealed class WaveWriterTests
{
    private static readonly AudioFormat Stereo = new(48000, 2);

    [Fact]
    public void Until_it_is_published_only_the_temporary_name_is_there()
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(SampleEncoding.Pcm24, 2, 200_000);
        using var writer = WaveWriter.Create(folder.File("01_Kick.wav"), Stereo, SampleEncoding.Pcm24, null, 200_000);

        Assert.Equal([Path.GetFileName(writer.PartialPath)], folder.Names);
        Planar.Write(writer, signal);
        Assert.Equal([Path.GetFileName(writer.PartialPath)], folder.Names);
        writer.Finish(200_000);
        Assert.Equal([Path.GetFileName(writer.PartialPath)], folder.Names);
        writer.Publish();
        Assert.Equal(["01_Kick.wav"], folder.Names);
    }

    [Fact]
    public void What_a_killed_run_leaves_is_refused_by_the_reader_and_replaced_by_the_next_run()
    {
        if (OperatingSystem.IsWindows())
        {
            return; // an open file cannot be copied there
        }

        using var folder = new TestFolder();
        var signal = Planar.Noise(SampleEncoding.Pcm24, 2, 500_000);
        using (var writer = WaveWriter.Create(folder.File("a.wav"), Stereo, SampleEncoding.Pcm24, null, 500_000))
        {
            Planar.Write(writer, signal);
            using var copying = System.Diagnostics.Process.Start("cp", [writer.PartialPath, folder.File("left")]);
            copying.WaitForExit();
        }

        var partial = folder.File(TemporaryName.New());
        File.Move(folder.File("left"), partial);
        var left = new FileInfo(partial).Length;

        Assert.InRange(left, 1_000_000, 3_100_000);
        Assert.Throws<AudioFileException>(() => AudioReader.Open(partial));

        Leftovers.Clear(folder.Path, FileSteps.Plain);
        Planar.Write(folder.File("a.wav"), signal, SampleEncoding.Pcm24);

        Assert.Equal(["a.wav"], folder.Names);
        Planar.AssertSame(signal, Planar.Read(folder.File("a.wav")));
    }

    [Fact]
    public void A_writer_disposed_before_it_publishes_leaves_nothing_and_keeps_the_older_file()
    {
        using var folder = new TestFolder();
        folder.Put("a.wav", [1, 2, 3]);

        using (var writer = WaveWriter.Create(folder.File("a.wav"), Stereo, SampleEncoding.Pcm24, null, 10))
        {
            writer.Write(new AudioBlock(Planar.Silence(2, 10), 0, 10));
            writer.Finish(10);
        }

        Assert.Equal(["a.wav"], folder.Names);
        Assert.Equal([1, 2, 3], File.ReadAllBytes(folder.File("a.wav")));
    }

    [Theory]
    [InlineData(1, 0)]
    [InlineData(1, 1)]
    [InlineData(1, 99_999)]
    [InlineData(2, 77_777)]
    [InlineData(2, 200_000)]
    public void Finishing_shorter_leaves_the_file_as_if_no_more_had_been_written(int channels, int frames)
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(SampleEncoding.Pcm24, channels, 200_000);
        Planar.Write(folder.File("short.wav"), [.. signal.Select(c => c[..frames])], SampleEncoding.Pcm24);

        using var writer = WaveWriter.Create(folder.File("cut.wav"), new AudioFormat(48000, channels), SampleEncoding.Pcm24, null, 200_000);
        Planar.Write(writer, signal);
        writer.Finish(frames);
        writer.Publish();

        Assert.Equal(File.ReadAllBytes(folder.File("short.wav")), File.ReadAllBytes(folder.File("cut.wav")));
        using var reader = AudioReader.Open(folder.File("cut.wav"));
        reader.Skip(frames);
        Assert.Equal(reader.AudioSha256, writer.AudioSha256);
    }

    [Fact]
    public void The_hashes_are_those_of_the_samples_and_of_the_file()
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(SampleEncoding.Float32, 2, 50_000);
        using var writer = WaveWriter.Create(folder.File("a.wav"), Stereo, SampleEncoding.Float32, null, 0);
        Planar.Write(writer, signal);

        Assert.Throws<InvalidOperationException>(() => writer.AudioSha256);
        Assert.Throws<InvalidOperationException>(() => writer.FileSha256);
        Assert.Throws<InvalidOperationException>(writer.Publish);
        writer.Finish(50_000);
        var before = writer.FileSha256;
        writer.Publish();

        var file = File.ReadAllBytes(folder.File("a.wav"));
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(file)), before);
        Assert.Equal(before, FileHash.Sha256(folder.File("a.wav")));
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(file.AsSpan(file.Length - 400_000))), writer.AudioSha256);
    }

    [Fact]
    public void A_broadcast_extension_given_at_the_end_replaces_the_first_in_the_same_place()
    {
        using var folder = new TestFolder();
        var first = new BroadcastExtension { Description = "first", CodingHistory = "A=PCM\r\n" };
        var second = first with { LoudnessLufs = -20.5, CodingHistory = new string('x', 500) + "\r\n" };
        var signal = Planar.Noise(SampleEncoding.Pcm24, 2, 100);
        Planar.Write(folder.File("first.wav"), signal, SampleEncoding.Pcm24, first);

        using var writer = WaveWriter.Create(folder.File("second.wav"), Stereo, SampleEncoding.Pcm24, first, 100);
        Planar.Write(writer, signal);
        writer.Finish(100, second);
        writer.Publish();

        using var reader = AudioReader.Open(folder.File("second.wav"));
        Assert.Equal(second, reader.Info.Broadcast);
        Planar.AssertSame(signal, Planar.Read(reader));
        Assert.Equal(new FileInfo(folder.File("first.wav")).Length, new FileInfo(folder.File("second.wav")).Length);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_broadcast_extension_may_come_at_the_end_alone(bool isOdd)
    {
        using var folder = new TestFolder();
        var broadcast = new BroadcastExtension { Description = "late", CodingHistory = isOdd ? "x" : "" };
        using var writer = WaveWriter.Create(folder.File("a.wav"), Stereo, SampleEncoding.Pcm24, null, 0);

        writer.Finish(0, broadcast);
        writer.Publish();

        using var reader = AudioReader.Open(folder.File("a.wav"));
        Assert.Equal(broadcast, reader.Info.Broadcast);
    }

    [Fact]
    public void Extra_chunks_travel_before_the_samples_and_may_be_replaced_at_the_end()
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(SampleEncoding.Pcm16, 1, 33);
        using var writer = WaveWriter.Create(folder.File("a.wav"), new AudioFormat(44100, 1), SampleEncoding.Pcm16, null, 33, [new WaveChunk("abcd", new byte[3000])]);
        Planar.Write(writer, signal);

        writer.Finish(33, chunks: [new WaveChunk("abcd", new byte[] { 1, 2, 3 }), new WaveChunk("efgh", new byte[3500])]);
        writer.Publish();

        using var reader = AudioReader.Open(folder.File("a.wav"));
        Assert.Equal([("abcd", 3), ("efgh", 3500)], reader.Chunks.Select(c => (c.Id, c.Data.Length)));
        Assert.Equal([1, 2, 3], reader.Chunks[0].Data.ToArray());
        Planar.AssertSame(signal, Planar.Read(reader));
    }

    [Fact]
    public void Chunks_may_grow_by_what_was_kept_to_spare_and_no_more()
    {
        using var folder = new TestFolder();

        foreach (var growth in Enumerable.Range(WaveWriter.SpareBytes - 20, 40))
        {
            using var writer = WaveWriter.Create(folder.File("a.wav"), Stereo, SampleEncoding.Pcm16, null, 0, [new WaveChunk("abcd", new byte[100])]);
            var grown = new[] { new WaveChunk("abcd", new byte[100 + growth]) };
            var padded = growth + (growth % 2);

            if (padded == WaveWriter.SpareBytes || padded <= WaveWriter.SpareBytes - 8)
            {
                writer.Finish(0, chunks: grown);
                writer.Publish();
                using var reader = AudioReader.Open(folder.File("a.wav"));
                Assert.Equal(100 + growth, reader.Chunks[0].Data.Length);
            }
            else
            {
                Assert.Throws<ArgumentException>(() => writer.Finish(0, chunks: grown));
            }
        }
    }

    [Theory]
    [InlineData(1_000_000, false)]
    [InlineData(715_827_690, false)] // 6 bytes a frame: just under 4 GiB
    [InlineData(715_827_883, true)] // and over
    [InlineData(3_000_000_000, true)]
    public void A_header_is_long_when_the_file_needs_it(long frames, bool isLong)
    {
        var header = new WaveHeader(Stereo, SampleEncoding.Pcm24);
        var bytes = header.ToBytes(frames, null, [], null)!;
        var fileBytes = bytes.Length + (6 * frames);

        Assert.Equal(isLong ? "RF64" : "RIFF", Text(bytes, 0));
        Assert.Equal(isLong ? uint.MaxValue : (uint)(fileBytes - 8), UInt32(bytes, 4));
        Assert.Equal(isLong ? "ds64" : "JUNK", Text(bytes, 12));
        Assert.Equal(28u, UInt32(bytes, 16));
        Assert.Equal(isLong ? fileBytes - 8 : 0, BinaryPrimitives.ReadInt64LittleEndian(bytes.AsSpan(20)));
        Assert.Equal(isLong ? 6 * frames : 0, BinaryPrimitives.ReadInt64LittleEndian(bytes.AsSpan(28)));
        Assert.Equal(isLong ? frames : 0, BinaryPrimitives.ReadInt64LittleEndian(bytes.AsSpan(36)));
        Assert.Equal("data", Text(bytes, bytes.Length - 8));
        Assert.Equal(isLong ? uint.MaxValue : (uint)(6 * frames), UInt32(bytes, bytes.Length - 4));
    }

    [Fact]
    public void A_long_header_is_read_back()
    {
        using var folder = new TestFolder();
        const long frames = 900_000_000;
        var header = new WaveHeader(Stereo, SampleEncoding.Pcm24).ToBytes(frames, new BroadcastExtension { Description = "long" }, [], 4000)!;
        var path = folder.Put("a.wav", header);
        using (var file = File.OpenHandle(path, FileMode.Open, FileAccess.Write))
        {
            RandomAccess.SetLength(file, header.Length + (6 * frames)); // takes no room: a hole
        }

        using var reader = AudioReader.Open(path);

        Assert.Equal((frames, "long"), (reader.Info.Frames, reader.Info.Broadcast!.Description));
        Assert.Equal(4000, header.Length);
    }

    [Theory]
    [InlineData(1, SampleEncoding.Pcm24, 1, 16)]
    [InlineData(2, SampleEncoding.Float32, 3, 18)]
    [InlineData(4, SampleEncoding.Pcm24, 0xFFFE, 40)]
    public void The_format_chunk_is_the_plainest_that_says_everything(int channels, SampleEncoding encoding, int tag, int length)
    {
        var bytes = new WaveHeader(new AudioFormat(48000, channels), encoding).ToBytes(5, null, [], null)!;
        var at = FileBytes.IndexOf(bytes, "fmt ");

        Assert.Equal(length, (int)UInt32(bytes, at + 4));
        Assert.Equal(tag, BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(at + 8)));
        Assert.Equal(encoding.IsFloat(), FileBytes.IndexOf(bytes, "fact") > 0);
    }

    [Fact]
    public void Four_channels_say_which_loudspeakers_they_are_for()
    {
        var bytes = new WaveHeader(new AudioFormat(48000, 4), SampleEncoding.Pcm24).ToBytes(5, null, [], null)!;
        var at = FileBytes.IndexOf(bytes, "fmt ") + 8;

        Assert.Equal(22, BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(at + 16)));
        Assert.Equal(24, BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(at + 18)));
        Assert.Equal(0x33u, UInt32(bytes, at + 20));
        Assert.Equal(new Guid("00000001-0000-0010-8000-00AA00389B71"), new Guid(bytes.AsSpan(at + 24, 16)));
    }

    [Fact]
    public void A_place_that_cannot_be_written_is_refused_in_words()
    {
        using var folder = new TestFolder();
        Directory.CreateDirectory(folder.File("taken.wav"));

        Assert.Contains("a folder of that name is in the way", Refusal(folder.File("taken.wav")), StringComparison.Ordinal);
        Assert.Contains("its folder does not exist", Refusal(folder.File("none/a.wav")), StringComparison.Ordinal);
        Assert.Contains("not a usable file name", Refusal("a\0.wav"), StringComparison.Ordinal);
        Assert.Contains("not a usable file name", Refusal(""), StringComparison.Ordinal);
        Assert.Contains("not a usable file name", Refusal(folder.File("none/")), StringComparison.Ordinal);
        Assert.Equal(["taken.wav"], folder.Names);
    }

    [Fact]
    public void Too_little_room_on_the_disk_is_known_before_the_work_begins()
    {
        using var folder = new TestFolder();

        var refusal = Assert.Throws<AudioFileException>(() => WaveWriter.Create(folder.File("a.wav"), Stereo, SampleEncoding.Pcm24, null, 1L << 42));

        Assert.Contains("not enough room on the disk", refusal.Message, StringComparison.Ordinal);
        Assert.Empty(folder.Names);
    }

    [Fact]
    public void A_folder_that_takes_the_name_meanwhile_is_refused_in_words()
    {
        using var folder = new TestFolder();
        using (var writer = WaveWriter.Create(folder.File("a.wav"), Stereo, SampleEncoding.Pcm24, null, 0))
        {
            writer.Finish(0);
            Directory.CreateDirectory(folder.File("a.wav"));

            Assert.Contains("a folder of that name", Assert.Throws<AudioFileException>(writer.Publish).Message, StringComparison.Ordinal);
        }

        Assert.Equal(["a.wav"], folder.Names);
    }

    [Fact]
    public void Two_writers_of_one_name_each_write_a_whole_file_and_the_later_stays()
    {
        using var folder = new TestFolder();
        var signals = new[] { Planar.Noise(SampleEncoding.Pcm24, 2, 100), Planar.Noise(SampleEncoding.Pcm24, 2, 200) };
        var writers = signals.Select(s => WaveWriter.Create(folder.File("a.wav"), Stereo, SampleEncoding.Pcm24, null, 0)).ToArray();
        for (var n = 0; n < writers.Length; n++)
        {
            Planar.Write(writers[n], signals[n]);
            writers[n].Finish(signals[n][0].Length);
        }

        Array.ForEach(writers, w => w.Publish());
        Array.ForEach(writers, w => w.Dispose());

        Assert.Equal(["a.wav"], folder.Names);
        Planar.AssertSame(signals[1], Planar.Read(folder.File("a.wav")));
    }

    [Fact]
    public void A_sample_that_is_not_a_number_is_refused_with_its_place()
    {
        using var folder = new TestFolder();
        using var writer = WaveWriter.Create(folder.File("a.wav"), Stereo, SampleEncoding.Pcm24, null, 0);
        var signal = Planar.Silence(2, 100);
        writer.Write(new AudioBlock(signal, 0, 100));
        signal[1][42] = double.NaN;

        var refusal = Assert.Throws<AudioFileException>(() => writer.Write(new AudioBlock(signal, 0, 100)));

        Assert.Contains("frame 142 of channel 2", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Use_out_of_order_is_refused()
    {
        using var folder = new TestFolder();
        using var writer = WaveWriter.Create(folder.File("a.wav"), Stereo, SampleEncoding.Pcm24, null, 0);

        Assert.Throws<ArgumentException>(() => writer.Write(new AudioBlock(Planar.Silence(1, 10), 0, 10)));
        Assert.Throws<ArgumentOutOfRangeException>(() => writer.Finish(1));
        writer.Finish(0);
        Assert.Throws<InvalidOperationException>(() => writer.Write(new AudioBlock(Planar.Silence(2, 10), 0, 10)));
        Assert.Throws<InvalidOperationException>(() => writer.Finish(0));
        Assert.Throws<ArgumentException>(() => WaveWriter.Create(folder.File("b.wav"), Stereo, SampleEncoding.Pcm24, null, 0, [new WaveChunk("toolong", default)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => WaveWriter.Create(folder.File("b.wav"), new AudioFormat(48000, 0), SampleEncoding.Pcm24, null, 0));
    }

    private static string Refusal(string path) =>
        Assert.Throws<AudioFileException>(() => WaveWriter.Create(path, Stereo, SampleEncoding.Pcm24, null, 10)).Message;

    private static string Text(byte[] bytes, int at) => System.Text.Encoding.ASCII.GetString(bytes, at, 4);

    private static uint UInt32(byte[] bytes, int at) => BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(at));
}
