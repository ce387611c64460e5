using System.Buffers.Binary;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Tests.Audio;

/// <summary>Field places, sizes and printed examples: EBU Tech 3285 version 2 (2011) and EBU R 98 (1999), from stored
/// reproductions of both texts.</summary>
public sealed class BroadcastChunkTests
{
    private static readonly BroadcastExtension Full = new()
    {
        Description = "Kick, all close microphones",
        Originator = "DrumPrint",
        OriginatorReference = "SlowFerry_v1_01",
        OriginationDate = "2031-02-03",
        OriginationTime = "10-00-00",
        TimeReference = 1_728_000_000,
        LoudnessLufs = -22.64,
        LoudnessRangeLu = 12.76,
        MaxTruePeakDbtp = -1,
        MaxMomentaryLufs = -18.5,
        MaxShortTermLufs = -20.25,
        CodingHistory = "A=PCM,F=48000,W=24,M=stereo,T=\r\n",
    };

    [Fact]
    public void Every_field_stands_in_its_place()
    {
        var bytes = BroadcastChunk.ToBytes(Full);

        Assert.Equal(602 + Full.CodingHistory.Length, bytes.Length);
        Assert.Equal(Padded("Kick, all close microphones", 256), bytes[..256]);
        Assert.Equal(Padded("DrumPrint", 32), bytes[256..288]);
        Assert.Equal(Padded("SlowFerry_v1_01", 32), bytes[288..320]);
        Assert.Equal(FileBytes.Ascii("2031-02-03"), bytes[320..330]);
        Assert.Equal(FileBytes.Ascii("10-00-00"), bytes[330..338]);
        Assert.Equal([0x00, 0x30, 0xFF, 0x66, 0, 0, 0, 0], bytes[338..346]); // 10:00:00 at 48 kHz is 66FF3000h
        Assert.Equal([2, 0], bytes[346..348]);
        Assert.All(bytes[348..412], b => Assert.Equal(0, b));
        Assert.Equal([-2264, 1276, -100, -1850, -2025], Enumerable.Range(0, 5).Select(n => (int)BinaryPrimitives.ReadInt16LittleEndian(bytes.AsSpan(412 + (2 * n)))));
        Assert.All(bytes[422..602], b => Assert.Equal(0, b));
        Assert.Equal(FileBytes.Ascii(Full.CodingHistory), bytes[602..]);
    }

    [Theory]
    [InlineData(-22.644, 0xF728)]
    [InlineData(-22.645, 0xF727)]
    [InlineData(-22.646, 0xF727)]
    [InlineData(12.764, 0x04FC)]
    [InlineData(12.765, 0x04FD)]
    [InlineData(12.766, 0x04FD)]
    [InlineData(null, 0x7FFF)]
    [InlineData(double.NegativeInfinity, 0x7FFF)]
    [InlineData(double.NaN, 0x7FFF)]
    public void Loudness_is_rounded_half_away_from_zero(double? loudness, int expected)
    {
        var bytes = BroadcastChunk.ToBytes(Full with { LoudnessLufs = loudness });

        Assert.Equal(expected, BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(412)));
    }

    [Fact]
    public void What_was_put_in_comes_out()
    {
        Assert.Equal(Full, BroadcastChunk.FromBytes(BroadcastChunk.ToBytes(Full)));
        Assert.Equal(new BroadcastExtension(), BroadcastChunk.FromBytes(BroadcastChunk.ToBytes(new BroadcastExtension())));
    }

    [Fact]
    public void Fields_filled_to_the_brim_need_no_zero_byte()
    {
        var full = Full with { Description = new string('d', 256), Originator = new string('o', 32), OriginatorReference = new string('r', 32) };

        Assert.Equal(full, BroadcastChunk.FromBytes(BroadcastChunk.ToBytes(full)));
    }

    [Fact]
    public void Text_too_long_is_cut_and_text_beyond_ascii_is_marked()
    {
        var back = BroadcastChunk.FromBytes(BroadcastChunk.ToBytes(Full with { Originator = new string('o', 40), Description = "Übung" }));

        Assert.Equal((new string('o', 32), "?bung"), (back!.Originator, back.Description));
    }

    [Fact]
    public void Loudness_of_an_older_version_is_not_believed()
    {
        var bytes = BroadcastChunk.ToBytes(Full);
        bytes[346] = 1;

        var back = BroadcastChunk.FromBytes(bytes);

        Assert.Equal(Full with { LoudnessLufs = null, LoudnessRangeLu = null, MaxTruePeakDbtp = null, MaxMomentaryLufs = null, MaxShortTermLufs = null }, back);
    }

    [Fact]
    public void A_chunk_too_short_is_passed_over() => Assert.Null(BroadcastChunk.FromBytes(new byte[601]));

    [Fact]
    public void A_coding_history_that_readers_would_drop_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => BroadcastChunk.ToBytes(Full with { CodingHistory = new string('x', 9639) }));

    [Fact]
    public void The_chunk_travels_in_the_file()
    {
        using var folder = new TestFolder();

        Planar.Write(folder.File("a.wav"), Planar.Silence(2, 10), SampleEncoding.Pcm24, Full);
        using var reader = AudioReader.Open(folder.File("a.wav"));

        Assert.Equal(Full, reader.Info.Broadcast);
        Assert.Empty(reader.Chunks);
    }

    [Theory]
    [InlineData(48000, 2, 16, "", "A=PCM,F=48000,W=16,M=stereo,T=\r\n")] // printed in R 98
    [InlineData(44100, 1, 24, "DrumPrint; TPDF", "A=PCM,F=44100,W=24,M=mono,T=DrumPrint; TPDF\r\n")]
    [InlineData(96000, 4, 32, "a, b\r\nü", "A=PCM,F=96000,W=32,T=a; b  ?\r\n")]
    public void Coding_history_rows_follow_the_recommendation(int sampleRate, int channels, int bits, string text, string expected) =>
        Assert.Equal(expected, CodingHistory.PcmRow(new AudioFormat(sampleRate, channels), bits, text));

    private static byte[] Padded(string text, int length) => [.. FileBytes.Ascii(text), .. new byte[length - text.Length]];
}
