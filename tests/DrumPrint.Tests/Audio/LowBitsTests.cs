using DrumPrint.Audio;
using DrumPrint.Measuring;
using DrumPrint.Tests.Support;
using static DrumPrint.Tests.Audio.FileBytes;

namespace DrumPrint.Tests.Audio;

public sealed class LowBitsTests : IDisposable
{
    private const int Pcm = 1;

    // Peaks of both signs, small values, and odd ones, so that the lowest byte is in use.
    private static readonly int[] Values = [0, 1, -1, 0x3FFFFF, -0x400000, 0x7FFFFF, -0x800000, 12345, -54321, 255, -256];

    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<string, int, int> Forms => new()
    {
        { "extensible", 24, 4 },
        { "plain", 24, 4 },
        { "extensible", 20, 4 },
        { "extensible", 16, 4 },
        { "plain", 16, 4 },
        { "extensible", 16, 3 },
        { "plain", 16, 3 },
    };

    [Theory]
    [MemberData(nameof(Forms))]
    public void Bits_at_the_bottom_are_read_at_their_level_and_told(string form, int bits, int bytes)
    {
        var values = Values.Select(v => v >> (24 - bits)).ToArray();
        var path = _folder.Put("low.wav", File(form, bits, bytes, values.Select(v => (long)v)));

        using var reader = AudioReader.Open(path);
        var read = Planar.Read(reader);

        Assert.Equal([.. values.Select(v => v / Math.Pow(2, bits - 1))], read[0]);
        Assert.Equal((bits, true), (reader.Info.ValidBits, reader.Info.IsLowJustified));
        Assert.Contains($"Its {bits} bits stand at the bottom of {8 * bytes}", reader.Info.Remark, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Forms))]
    public void Bits_at_the_top_are_read_as_the_format_has_them_and_have_the_same_hash(string form, int bits, int bytes)
    {
        var values = Values.Select(v => v >> (24 - bits)).ToArray();
        var low = _folder.Put("low.wav", File(form, bits, bytes, values.Select(v => (long)v)));
        var top = _folder.Put("top.wav", File(form, bits, bytes, values.Select(v => (long)v << ((8 * bytes) - bits))));

        using var reader = AudioReader.Open(top);

        Assert.Equal([.. values.Select(v => v / Math.Pow(2, bits - 1))], Planar.Read(reader)[0]);
        Assert.Equal((bits, false), (reader.Info.ValidBits, reader.Info.IsLowJustified));
        Assert.Null(reader.Info.Remark);
        Assert.Equal(reader.AudioSha256, FileHash.AudioSha256(low));
    }

    [Fact]
    public void Two_channels_and_more_than_one_buffer_are_looked_through()
    {
        var values = Enumerable.Range(0, 400_000).Select(n => ((n * 7919L) % 0x1000000) - 0x800000).ToArray();
        var path = _folder.Put("low.wav", File("extensible", 24, 4, values, channels: 2));

        var read = Planar.Read(path);

        Assert.Equal([.. values.Where((_, n) => n % 2 == 0).Select(v => v / 8388608.0)], read[0]);
        Assert.Equal([.. values.Where((_, n) => n % 2 == 1).Select(v => v / 8388608.0)], read[1]);
    }

    [Theory]
    [InlineData("a sample whose top byte is no sign", new[] { 1, -1, 0x01000000 })]
    [InlineData("nothing in the lowest byte: a soft sound at the top", new[] { 0x100, -0x100, 0x7FFF00 })]
    [InlineData("silence", new[] { 0, 0, 0 })]
    public void Otherwise_the_words_are_read_as_they_stand(string why, int[] words)
    {
        Assert.NotEmpty(why);
        var path = _folder.Put("a.wav", File("extensible", 24, 4, words.Select(w => (long)w)));

        using var reader = AudioReader.Open(path);

        Assert.Equal([.. words.Select(w => w / 2147483648.0)], Planar.Read(reader)[0]);
        Assert.False(reader.Info.IsLowJustified);
    }

    [Fact]
    public void Whole_words_of_32_bits_are_never_moved()
    {
        var path = _folder.Put("a.wav", Riff(Format(Pcm, 1, 32), Chunk("data", [.. new[] { 1, -1, 1000 }.SelectMany(BitConverter.GetBytes)])));

        Assert.Equal([.. new[] { 1, -1, 1000 }.Select(v => v / 2147483648.0)], Planar.Read(path)[0]);
    }

    [Fact]
    public void A_measurement_and_a_print_tell_it()
    {
        using var session = new TestSession();
        var values = Enumerable.Range(0, 48000).Select(n => (long)(1_000_001 * Math.Sin(n / 20.0)));
        System.IO.File.WriteAllBytes(Path.Combine(session.Folder, "a.wav"), File("plain", 24, 4, values));

        var measured = FileMeter.Measure(Path.Combine(session.Folder, "a.wav"));
        var report = session.Print(session.Chain("""
            "tracks": { "a": "a.wav" }, "buses": { "b": { "from": { "a": 0 } } }, "prints": [ { "number": 1, "name": "A", "bus": "b" } ]
            """));

        Assert.Equal(20 * Math.Log10(1_000_001 / 8388608.0), measured.Sound.SamplePeakDbfs!.Value, 0.01);
        Assert.Equal(measured.Sound.SamplePeakDbfs.Value, report.Prints[0].PeakDbfs, 0.01);
        Assert.Contains(report.Notes, n => n.StartsWith("Track 'a': Its 24 bits stand at the bottom of 32", StringComparison.Ordinal));
    }

    // After the texts of the format. The plain description has the bits in use and the bytes of a frame. The extended one has the
    // bits of a word and those in use.
    private static byte[] File(string form, int bits, int bytes, IEnumerable<long> words, int channels = 1)
    {
        var data = words.SelectMany(w => Little((ulong)w, 8)[..bytes]).ToArray();
        var format = form == "extensible"
            ? ExtensibleFormat(Pcm, channels, 8 * bytes, bits)
            : Chunk("fmt ", Little(Pcm, 2), Little((ulong)channels, 2), Little(48000, 4), Little((ulong)(48000 * channels * bytes), 4), Little((ulong)(channels * bytes), 2), Little((ulong)bits, 2));
        return Riff(format, Chunk("data", data));
    }
}
