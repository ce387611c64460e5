using DrumPrint.Audio;
using NAudio.Wave;
using BroadcastExtension = DrumPrint.Audio.BroadcastExtension;

namespace DrumPrint.Tests.Audio;

/// <summary>What is written here is read by NAudio, and the other way round.</summary>
public sealed class ReferenceLibraryTests
{
    private static readonly BroadcastExtension Broadcast = new()
    {
        Description = "Snare",
        Originator = "DrumPrint",
        OriginatorReference = "ref",
        OriginationDate = "2031-02-03",
        OriginationTime = "10-00-00",
        TimeReference = 6_000_000_000,
        LoudnessLufs = -22.5,
        LoudnessRangeLu = 4.25,
        MaxTruePeakDbtp = -1.5,
        MaxMomentaryLufs = -15.75,
        MaxShortTermLufs = -18.01,
        CodingHistory = "A=PCM,F=48000,W=24,M=stereo,T=x\r\n",
    };

    public static TheoryData<SampleEncoding, int, int> Shapes()
    {
        var data = new TheoryData<SampleEncoding, int, int>();
        foreach (var encoding in Planar.Encodings)
        {
            foreach (var channels in new[] { 1, 2, 6 })
            {
                data.Add(encoding, channels, 0);
                data.Add(encoding, channels, 1);
                data.Add(encoding, channels, 3001);
            }
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void It_reads_the_bytes_written_here(SampleEncoding encoding, int channels, int frames)
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(encoding, channels, frames);
        Planar.Write(folder.File("a.wav"), signal, encoding, Broadcast, 96000);

        using var reader = new WaveFileReader(folder.File("a.wav"));
        var bytes = new byte[reader.Length];
        reader.ReadExactly(bytes);

        Assert.Equal((96000, channels, encoding.Bits()), (reader.WaveFormat.SampleRate, reader.WaveFormat.Channels, reader.WaveFormat.BitsPerSample));
        Assert.Equal((long)frames * channels * encoding.Bytes(), reader.Length);
        Assert.Equal(Interleaved(signal, encoding), bytes);
    }

    [Fact]
    public void It_reads_the_broadcast_extension_written_here()
    {
        using var folder = new TestFolder();
        Planar.Write(folder.File("a.wav"), Planar.Silence(2, 10), SampleEncoding.Pcm24, Broadcast);

        using var reader = new WaveFileReader(folder.File("a.wav"));
        var back = reader.Chunks.ReadBroadcastExtension();

        Assert.NotNull(back);
        Assert.Equal(
            ("Snare", "DrumPrint", "ref", "2031-02-03", "10-00-00", 6_000_000_000, (ushort)2, Broadcast.CodingHistory),
            (back.Description, back.Originator, back.OriginatorReference, back.OriginationDate, back.OriginationTime, back.TimeReference, back.Version, back.CodingHistory?.TrimEnd('\0')));
        Assert.Equal(
            [-2250, 425, -150, -1575, -1801],
            new[] { back.LoudnessValue, back.LoudnessRange, back.MaxTruePeakLevel, back.MaxMomentaryLoudness, back.MaxShortTermLoudness });
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Its_files_are_read_here(SampleEncoding encoding, int channels, int frames)
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(encoding, channels, frames);
        using (var writer = new WaveFileWriter(folder.File("a.wav"), Format(encoding, channels)))
        {
            writer.Write(Interleaved(signal, encoding));
        }

        Planar.AssertSame(signal, Planar.Read(folder.File("a.wav")));
    }

    [Fact]
    public void Its_long_files_are_read_here()
    {
        using var folder = new TestFolder();
        var signal = Planar.Noise(SampleEncoding.Pcm24, 2, 1000);
        var options = new WaveFileWriterOptions { EnableRf64 = true, Rf64PromotionThreshold = 100 };
        using (var writer = new WaveFileWriter(folder.File("a.wav"), Format(SampleEncoding.Pcm24, 2), options))
        {
            writer.Write(Interleaved(signal, SampleEncoding.Pcm24));
        }

        Assert.Equal("RF64"u8.ToArray(), File.ReadAllBytes(folder.File("a.wav"))[..4]);
        Planar.AssertSame(signal, Planar.Read(folder.File("a.wav")));
    }

    [Fact]
    public void Its_broadcast_extension_is_read_here()
    {
        using var folder = new TestFolder();
        using (var writer = new WaveFileWriter(folder.File("a.wav"), Format(SampleEncoding.Pcm24, 2)))
        {
            writer.WriteBroadcastExtension(new NAudio.Wave.BroadcastExtension
            {
                Description = Broadcast.Description,
                Originator = Broadcast.Originator,
                OriginatorReference = Broadcast.OriginatorReference,
                OriginationDate = Broadcast.OriginationDate,
                OriginationTime = Broadcast.OriginationTime,
                TimeReference = Broadcast.TimeReference,
                Version = 2,
                LoudnessValue = -2250,
                LoudnessRange = 425,
                MaxTruePeakLevel = -150,
                MaxMomentaryLoudness = -1575,
                MaxShortTermLoudness = -1801,
                CodingHistory = Broadcast.CodingHistory,
            });
            writer.Write(new byte[60]);
        }

        using var reader = AudioReader.Open(folder.File("a.wav"));

        Assert.Equal(Broadcast, reader.Info.Broadcast);
        Assert.Equal(10, reader.Info.Frames);
    }

    [Theory]
    [InlineData(16)]
    [InlineData(24)]
    [InlineData(32)]
    public void It_reads_the_same_from_aiff_files(int bits)
    {
        using var folder = new TestFolder();
        var encoding = bits switch
        {
            16 => SampleEncoding.Pcm16,
            24 => SampleEncoding.Pcm24,
            _ => SampleEncoding.Pcm32,
        };
        var signal = Planar.Noise(encoding, 2, 1001);
        var samples = Interleaved(signal, encoding);
        foreach (var sample in samples.Chunk(bits / 8).Select((bytes, n) => (bytes, n)))
        {
            sample.bytes.Reverse().ToArray().CopyTo(samples, sample.n * (bits / 8));
        }

        // Not written by it: it counts the 8 bytes before the samples as samples.
        folder.Put("a.aif", FileBytes.Form("AIFF", FileBytes.Common(2, 1001, bits), FileBytes.Sound(samples)));

        using var ours = AudioReader.Open(folder.File("a.aif"));
        using var theirs = new AiffFileReader(folder.File("a.aif"));
        var bytes = new byte[theirs.Length];
        theirs.ReadExactly(bytes);

        Assert.Equal((theirs.WaveFormat.SampleRate, 1001L), (ours.Info.SampleRate, ours.Info.Frames));
        Planar.AssertSame(signal, Planar.Read(ours));
        Assert.Equal(bytes, Interleaved(signal, encoding));
    }

    private static WaveFormat Format(SampleEncoding encoding, int channels) => encoding.IsFloat()
        ? WaveFormat.CreateCustomFormat(WaveFormatEncoding.IeeeFloat, 48000, channels, 48000 * channels * encoding.Bytes(), channels * encoding.Bytes(), encoding.Bits())
        : new WaveFormat(48000, encoding.Bits(), channels);

    /// <summary>The bytes of a signal on an encoding's grid, one sample at a time.</summary>
    private static byte[] Interleaved(double[][] signal, SampleEncoding encoding)
    {
        var bytes = new List<byte>();
        for (var n = 0; n < signal[0].Length; n++)
        {
            foreach (var channel in signal)
            {
                bytes.AddRange(encoding switch
                {
                    SampleEncoding.Float32 => BitConverter.GetBytes((float)channel[n]),
                    SampleEncoding.Float64 => BitConverter.GetBytes(channel[n]),
                    SampleEncoding.Pcm8 => [(byte)((channel[n] * 128) + 128)],
                    _ => BitConverter.GetBytes((long)(channel[n] / Planar.Step(encoding)))[..encoding.Bytes()],
                });
            }
        }

        return [.. bytes];
    }
}
