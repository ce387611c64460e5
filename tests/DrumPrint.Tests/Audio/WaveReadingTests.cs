using DrumPrint.Audio;
using DrumPrint.Dsp;
using static DrumPrint.Tests.Audio.FileBytes;

namespace DrumPrint.Tests.Audio;

public sealed class WaveReadingTests
{
    private const int Pcm = 1;
    private const int Float = 3;

    private static readonly byte[] Samples = [0x00, 0x40, 0x00, 0xC0, 0xFF, 0x7F, 0x00, 0x80, 0x01, 0x00];
    private static readonly double[] Values = [0.5, -0.5, 32767 / 32768.0, -1, 1 / 32768.0];

    public static TheoryData<string, byte[]> Files => new()
    {
        { "plain", Riff(Format(Pcm, 1, 16), Chunk("data", Samples)) },
        { "extensible", Riff(ExtensibleFormat(Pcm, 1, 16, 16), Chunk("data", Samples)) },
        { "format with a size field", Riff(Chunk("fmt ", Format(Pcm, 1, 16)[8..], [0, 0]), Chunk("data", Samples)) },
        { "unknown chunks before and after", Riff(Chunk("abcd", [1, 2]), Format(Pcm, 1, 16), Chunk("efgh"), Chunk("data", Samples), Chunk("ijkl", [3, 4, 5, 6])) },
        { "odd chunk, padded", Riff(Chunk("abcd", [1, 2, 3]), Format(Pcm, 1, 16), Chunk("data", Samples)) },
        { "odd chunk, padding forgotten", Riff(Chunk("abcd", [1, 2, 3])[..^1], Format(Pcm, 1, 16), Chunk("data", Samples)) },
        { "outer size left at zero", Outer("RIFF", 0, Format(Pcm, 1, 16), Chunk("data", Samples)) },
        { "outer size unknown", Outer("RIFF", 0xFFFF_FFFF, Format(Pcm, 1, 16), Chunk("data", Samples)) },
        { "loose bytes after the samples", Join(Riff(Format(Pcm, 1, 16), Chunk("data", Samples)), [0x54, 0x41, 0x47]) },
        { "chunk after the samples cut off", Riff(Format(Pcm, 1, 16), Chunk("data", Samples), ChunkSaying("LIST", 900, [1, 2])) },
        { "half a frame at the end", Riff(Format(Pcm, 1, 16), Chunk("data", Samples, [9])) },
        { "reserve for long sizes", Riff(Chunk("JUNK", new byte[28]), Format(Pcm, 1, 16), Chunk("data", Samples)) },
        { "RF64", Outer("RF64", 0xFFFF_FFFF, LongSizes(0, 10, 5), Format(Pcm, 1, 16), ChunkSaying("data", 0xFFFF_FFFF, Samples)) },
        { "BW64", Outer("BW64", 0xFFFF_FFFF, LongSizes(0, 10, 0), Format(Pcm, 1, 16), ChunkSaying("data", 0xFFFF_FFFF, Samples)) },
        { "RF64 that gives the size in place", Outer("RF64", 0xFFFF_FFFF, LongSizes(0, 999, 0), Format(Pcm, 1, 16), Chunk("data", Samples)) },
        {
            "RF64 with another long chunk",
            Outer("RF64", 0xFFFF_FFFF, LongSizes(0, 10, 5, Join(Ascii("long"), Little(6, 8))), Format(Pcm, 1, 16), ChunkSaying("long", 0xFFFF_FFFF, [1, 2, 3, 4, 5, 6]), ChunkSaying("data", 0xFFFF_FFFF, Samples))
        },
    };

    [Theory]
    [InlineData(1)]
    [InlineData(7999)]
    [InlineData(384001)]
    public void A_rate_that_no_recorder_has_is_refused(int rateHz)
    {
        using var folder = new TestFolder();
        var path = folder.Put("odd.wav", Riff(Format(Pcm, 1, 16, rateHz), Chunk("data", Samples)));

        var refused = Assert.Throws<AudioFileException>(() => AudioReader.Open(path));

        Assert.Contains("files of 8000 to 384000 Hz are read", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Files))]
    public void Every_sound_wave_file_is_read(string kind, byte[] bytes)
    {
        using var folder = new TestFolder();

        var signal = Planar.Read(folder.Put($"{kind}.wav", bytes));

        Assert.Equal([Values], signal);
    }

    [Fact]
    public void Eight_bit_samples_are_unsigned()
    {
        using var folder = new TestFolder();

        var signal = Planar.Read(folder.Put("a.wav", Riff(Format(Pcm, 2, 8), Chunk("data", [0, 128, 255, 129, 64, 192]))));

        Assert.Equal([[-1, 127 / 128.0, -0.5], [0, 1 / 128.0, 0.5]], signal);
    }

    [Theory]
    [InlineData(16, "0080FF7F", -1.0, 32767 / 32768.0)]
    [InlineData(24, "000080FFFF7F", -1.0, 8388607 / 8388608.0)]
    [InlineData(24, "010000FFFFFF", 1 / 8388608.0, -1 / 8388608.0)]
    [InlineData(32, "00000080FFFFFF7F", -1.0, 2147483647 / 2147483648.0)]
    public void Integers_of_any_width_span_minus_one_to_just_below_one(int bits, string samples, double first, double second)
    {
        using var folder = new TestFolder();

        var signal = Planar.Read(folder.Put("a.wav", Riff(Format(Pcm, 1, bits), Chunk("data", Convert.FromHexString(samples)))));

        Assert.Equal([[first, second]], signal);
    }

    [Theory]
    [InlineData(32)]
    [InlineData(64)]
    public void Floating_point_is_read_as_it_stands(int bits)
    {
        using var folder = new TestFolder();
        double[] values = [0.1, -1.5, 3e-20];
        var samples = bits == 32 ? values.SelectMany(v => BitConverter.GetBytes((float)v)) : values.SelectMany(BitConverter.GetBytes);

        var plain = Planar.Read(folder.Put("a.wav", Riff(Format(Float, 1, bits), Chunk("fact", Little(3, 4)), Chunk("data", [.. samples]))));
        var extensible = Planar.Read(folder.Put("b.wav", Riff(ExtensibleFormat(Float, 1, bits, bits), Chunk("data", [.. samples]))));

        Assert.Equal([bits == 32 ? [.. values.Select(v => (double)(float)v)] : values], plain);
        Assert.Equal(plain, extensible);
    }

    [Theory]
    [InlineData(24, 20, SampleEncoding.Pcm24)]
    [InlineData(32, 24, SampleEncoding.Pcm32)]
    [InlineData(16, 12, SampleEncoding.Pcm16)]
    public void Fewer_valid_bits_than_the_container_leave_the_level_alone(int container, int valid, SampleEncoding encoding)
    {
        using var folder = new TestFolder();
        byte[] half = [.. new byte[(container / 8) - 1], 0x40];

        using var reader = AudioReader.Open(folder.Put("a.wav", Riff(ExtensibleFormat(Pcm, 1, container, valid), Chunk("data", half))));
        var signal = Planar.Read(reader);

        Assert.Equal((encoding, valid), (reader.Info.Encoding, reader.Info.ValidBits));
        Assert.Equal([[0.5]], signal);
    }

    [Theory]
    [InlineData(20, SampleEncoding.Pcm24)]
    [InlineData(12, SampleEncoding.Pcm16)]
    public void A_plain_header_may_say_fewer_bits_than_its_bytes_hold(int bits, SampleEncoding encoding)
    {
        using var folder = new TestFolder();

        using var reader = AudioReader.Open(folder.Put("a.wav", Riff(Format(Pcm, 1, bits), Chunk("data", [.. new byte[encoding.Bytes() - 1], 0xC0]))));

        Assert.Equal((encoding, bits), (reader.Info.Encoding, reader.Info.ValidBits));
        Assert.Equal([[-0.5]], Planar.Read(reader));
    }

    [Fact]
    public void A_file_with_no_samples_has_no_frames()
    {
        using var folder = new TestFolder();

        using var reader = AudioReader.Open(folder.Put("a.wav", Riff(Format(Pcm, 2, 24), Chunk("data"), Chunk("LIST", [1, 2]))));

        Assert.Equal(0, reader.Info.Frames);
        Assert.Equal(0, reader.Read(new AudioBlock(Planar.Silence(2, 10), 0, 10)));
        Assert.Equal("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855", reader.AudioSha256); // FIPS 180-4: of no bytes
    }

    [Fact]
    public void More_than_four_gibibytes_are_found_by_their_long_size()
    {
        using var folder = new TestFolder();
        const long dataBytes = 5L << 30;
        var header = Outer("RF64", 0xFFFF_FFFF, LongSizes(0, dataBytes, dataBytes / 6), Format(Pcm, 2, 24), ChunkSaying("data", 0xFFFF_FFFF));
        var path = folder.Put("long.wav", header);
        using (var file = File.OpenHandle(path, FileMode.Open, FileAccess.Write))
        {
            RandomAccess.SetLength(file, header.Length + dataBytes); // takes no room: a hole
        }

        using var reader = AudioReader.Open(path);

        Assert.Equal(dataBytes / 6, reader.Info.Frames);
    }

    [Fact]
    public void The_block_beyond_the_file_becomes_silence()
    {
        using var folder = new TestFolder();
        using var reader = AudioReader.Open(folder.Put("a.wav", Riff(Format(Pcm, 1, 16), Chunk("data", Samples))));
        double[][] block = [[.. Enumerable.Repeat(9.0, 10)], [.. Enumerable.Repeat(9.0, 10)]];

        var frames = reader.Read(new AudioBlock(block, 1, 8));

        Assert.Equal(5, frames);
        Assert.Equal([9, .. Values, 0, 0, 0, 9], block[0]);
        Assert.Equal([9, 0, 0, 0, 0, 0, 0, 0, 0, 9], block[1]);
    }

    [Fact]
    public void A_block_of_fewer_channels_gets_the_first_ones()
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(SampleEncoding.Pcm24, 3, 100);
        Planar.Write(folder.File("a.wav"), signal, SampleEncoding.Pcm24);
        using var reader = AudioReader.Open(folder.File("a.wav"));
        var block = Planar.Silence(2, 100);

        reader.Read(new AudioBlock(block, 0, 100));

        Assert.Equal(signal[..2], block);
    }

    [Fact]
    public void Skipping_moves_on_and_leaves_the_hash_complete()
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(SampleEncoding.Pcm24, 2, 200_000);
        Planar.Write(folder.File("a.wav"), signal, SampleEncoding.Pcm24);
        using var whole = AudioReader.Open(folder.File("a.wav"));
        Planar.Read(whole);
        using var reader = AudioReader.Open(folder.File("a.wav"));
        var block = Planar.Silence(2, 1000);

        reader.Skip(123_456);
        reader.Read(new AudioBlock(block, 0, 1000));

        Assert.Equal(signal.Select(c => c[123_456..124_456]), block);
        Assert.Throws<InvalidOperationException>(() => reader.AudioSha256);

        reader.Skip(long.MaxValue);

        Assert.Equal(whole.AudioSha256, reader.AudioSha256);
        Assert.Equal(0, reader.Read(new AudioBlock(block, 0, 1000)));
    }

    [Fact]
    public void The_hash_is_that_of_the_samples_alone()
    {
        using var folder = new TestFolder();
        var expected = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(Samples));

        foreach (var (kind, bytes) in Files.Select(row => ((string)row[0], (byte[])row[1])))
        {
            using var reader = AudioReader.Open(folder.Put($"{kind}.wav", bytes));
            reader.Skip(5);

            Assert.Equal(expected, reader.AudioSha256);
        }
    }

    [Fact]
    public void A_reader_closed_early_or_twice_is_no_trouble_and_one_read_to_its_end_keeps_its_hash()
    {
        using var folder = new TestFolder();
        var path = folder.Put("a.wav", Riff(Format(Pcm, 1, 16), Chunk("data", new byte[1_000_000])));

        for (var n = 0; n < 50; n++)
        {
            using var early = AudioReader.Open(path);
            early.Skip(n);
            early.Dispose();
        }

        var whole = AudioReader.Open(path);
        whole.Skip(500_000);
        whole.Dispose();

        Assert.Equal("d29751f2649b32ff572b5e0a9f541ea660a50f94ff0beedfb0b692b924cc8025", whole.AudioSha256); // a million zero bytes
    }

    [Fact]
    public void Other_chunks_can_be_fetched()
    {
        using var folder = new TestFolder();
        var bytes = Riff(Chunk("note", Ascii("loud")), Chunk("JUNK", [1, 2]), Format(Pcm, 1, 16), Chunk("odd ", [1, 2, 3]), Chunk("data", Samples), Chunk("tail", [7]));

        using var reader = AudioReader.Open(folder.Put("a.wav", bytes));

        Assert.Equal(["note", "odd ", "tail"], reader.Chunks.Select(c => c.Id));
        Assert.Equal([Ascii("loud"), [1, 2, 3], [7]], reader.Chunks.Select(c => c.Data.ToArray()));
        Assert.Equal([Values], Planar.Read(reader));
    }

    [Fact]
    public void Others_may_read_the_file_meanwhile()
    {
        using var folder = new TestFolder();
        var path = folder.Put("a.wav", Riff(Format(Pcm, 1, 16), Chunk("data", Samples)));

        using var first = AudioReader.Open(path);
        using var second = AudioReader.Open(path);

        Assert.Equal(Planar.Read(first), Planar.Read(second));
    }

    [Fact]
    public void Reading_goes_on_when_no_pool_thread_is_free()
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(SampleEncoding.Pcm24, 2, 400_000);
        var gate = new ManualResetEventSlim();
        for (var n = 0; n < 64; n++)
        {
            ThreadPool.QueueUserWorkItem(_ => gate.Wait(TimeSpan.FromSeconds(30)));
        }

        double[][]? back = null;

        var worker = new Thread(() =>
        {
            Planar.Write(folder.File("a.wav"), signal, SampleEncoding.Pcm24);
            back = Planar.Read(folder.File("a.wav"));
        });
        worker.Start();
        var finished = worker.Join(TimeSpan.FromSeconds(20));
        gate.Set();

        Assert.True(finished);
        Assert.NotNull(back);
        Planar.AssertSame(signal, back);
    }

    [Fact]
    public void Reading_and_writing_allocate_nothing_once_under_way()
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(SampleEncoding.Pcm24, 2, 400_000);
        Planar.Write(folder.File("a.wav"), signal, SampleEncoding.Pcm24);
        using var reader = AudioReader.Open(folder.File("a.wav"));
        using var writer = WaveWriter.Create(folder.File("b.wav"), new AudioFormat(48000, 2), SampleEncoding.Pcm24, null, 400_000);
        reader.Read(new AudioBlock(signal, 0, 1000));
        writer.Write(new AudioBlock(signal, 0, 1000));

        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var n = 1; n < 400; n++)
        {
            reader.Read(new AudioBlock(signal, 0, 1000));
            writer.Write(new AudioBlock(signal, 0, 1000));
        }

        // A wait for the other thread may allocate a little; a copy of a block would take 16 000 bytes each time.
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 8000);
    }

    [Fact]
    public void The_hash_of_a_whole_file_can_be_taken_in_the_pass_that_reads_its_samples()
    {
        using var folder = new TestFolder();
        byte[] samples = [.. Enumerable.Range(0, 700_001).Select(n => (byte)(n * 7))];
        byte[][] files =
        [
            Riff(Format(1, 1, 24), Chunk("note", Ascii("before")), Chunk("data", samples[..699_999]), Chunk("LIST", Ascii("after"))),
            Riff(Format(1, 1, 8), Chunk("data", samples)),
            Riff(Format(1, 2, 16), Chunk("data")),
        ];

        foreach (var file in files)
        {
            using var reader = AudioReader.Open(folder.Put("a.wav", file), AudioHashes.Samples | AudioHashes.File);
            using var without = AudioReader.Open(folder.Put("b.wav", file));
            reader.Skip(reader.Info.Frames);
            without.Skip(reader.Info.Frames);

            Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(file)), reader.FileSha256);
            Assert.Equal(without.AudioSha256, reader.AudioSha256);
            Assert.Null(without.FileSha256);
        }
    }

    [Fact]
    public void Hashes_that_were_not_asked_for_are_not_taken()
    {
        using var folder = new TestFolder();
        using var reader = AudioReader.Open(folder.Put("a.wav", Riff(Format(1, 1, 16), Chunk("data", Samples))), AudioHashes.None);
        reader.Skip(reader.Info.Frames);

        Assert.Contains("without asking", Assert.Throws<InvalidOperationException>(() => reader.AudioSha256).Message, StringComparison.Ordinal);
        Assert.Null(reader.FileSha256);
        Assert.Null(reader.Likeness);
    }

    [Fact]
    public void The_likeness_of_samples_is_theirs_alone()
    {
        using var folder = new TestFolder();
        byte[] other = [.. Samples];
        other[^1] ^= 1;

        var plain = Likeness(Riff(Format(1, 1, 16), Chunk("data", Samples)));
        var tagged = Likeness(Riff(Format(1, 1, 16), Chunk("note", Ascii("before")), Chunk("data", Samples)));
        var changed = Likeness(Riff(Format(1, 1, 16), Chunk("data", other)));

        Assert.NotNull(plain);
        Assert.Equal(plain, tagged);
        Assert.NotEqual(plain, changed);

        UInt128? Likeness(byte[] file)
        {
            using var reader = AudioReader.Open(folder.Put("a.wav", file), AudioHashes.Likeness);
            reader.Skip(reader.Info.Frames);
            return reader.Likeness;
        }
    }
}
