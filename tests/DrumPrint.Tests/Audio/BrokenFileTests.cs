using DrumPrint.Audio;
using static DrumPrint.Tests.Audio.FileBytes;

namespace DrumPrint.Tests.Audio;

public sealed class BrokenFileTests
{
    private static readonly byte[] Stereo24 = Format(1, 2, 24);
    private static readonly byte[] TenFrames = new byte[60];

    public static TheoryData<string, byte[], string[]> Files => new()
    {
        { "empty", [], ["not a WAV, AIFF or FLAC file", "empty"] },
        { "tiny", [1, 2, 3], ["not a WAV, AIFF or FLAC file", "3 bytes"] },
        { "text", Ascii("Dear diary, the hall was cold."), ["not a WAV, AIFF or FLAC file", "'Dear'"] },
        { "binary", Join([0x7F, 1, 2, 3], new byte[40]), ["not a WAV, AIFF or FLAC file", "7F010203"] },
        { "ogg", Join(Ascii("OggS"), new byte[40]), ["Ogg", "Convert it to WAV"] },
        { "mp3", Join(Ascii("ID3"), new byte[40]), ["MP3", "Convert it to WAV"] },
        { "not sound", Join(Ascii("RIFF"), Little(40, 4), Ascii("AVI "), new byte[36]), ["'AVI '", "'WAVE'"] },
        { "not sound either", Join(Ascii("FORM"), Big(40, 4), Ascii("8SVX"), new byte[36]), ["'8SVX'", "'AIFF'"] },
        { "no format", Riff(Chunk("data", TenFrames)), ["before the description"] },
        { "no format and no samples", Riff(Chunk("abcd", [1, 2])), ["no 'fmt ' chunk"] },
        { "no samples", Riff(Stereo24), ["no samples", "'data'"] },
        { "short format", Riff(Chunk("fmt ", new byte[14]), Chunk("data", TenFrames)), ["14 bytes", "16"] },
        { "header broken off", Riff(Stereo24)[..^4], ["header is broken", "'fmt '"] },
        { "format broken off", Riff(ChunkSaying("fmt ", 900, new byte[16])), ["header is broken", "900"] },
        { "no channels", Riff(Format(1, 0, 16), Chunk("data", TenFrames)), ["0 channels at 48000 Hz"] },
        { "no rate", Riff(Format(1, 1, 16, 0), Chunk("data", TenFrames)), ["1 channels at 0 Hz"] },
        { "block size wrong", Riff(With(Format(1, 2, 24), 20, 0x0018_0007), Chunk("data", TenFrames)), ["2 channels of 24 bits", "7 bytes a frame"] },
        { "48 bits", Riff(Format(1, 2, 48), Chunk("data", TenFrames)), ["48-bit integers", "expected are 8, 16, 24 or 32-bit"] },
        { "16-bit float", Riff(Format(3, 2, 16), Chunk("data", TenFrames)), ["16-bit floating point", "32 or 64-bit"] },
        { "A-law", Riff(Format(6, 2, 8), Chunk("data", TenFrames)), ["A-law", "uncompressed"] },
        { "ADPCM", Riff(Format(2, 2, 4), Chunk("data", TenFrames)), ["ADPCM", "uncompressed"] },
        { "other", Riff(Format(0x7777, 2, 16), Chunk("data", TenFrames)), ["format number 30583"] },
        { "private", Riff(Chunk("fmt ", Format(0xFFFE, 2, 24)[8..], Little(22, 2), Little(24, 2), Little(3, 4), new byte[16]), Chunk("data", TenFrames)), ["private to one maker"] },
        { "extensible cut", Riff(Chunk("fmt ", Format(0xFFFE, 2, 24)[8..], Little(0, 2)), Chunk("data", TenFrames)), ["18 bytes instead of 40"] },
        { "truncated", Riff(Stereo24, ChunkSaying("data", 600, TenFrames)), ["cut short", "promises 100 frames", "only 10 are there"] },
        { "truncated RF64", Outer("RF64", 0xFFFF_FFFF, LongSizes(0, 6_000_000_000, 0), Stereo24, ChunkSaying("data", 0xFFFF_FFFF, TenFrames)), ["promises 1000000000 frames", "only 10"] },
        { "unfinished, size 0", Riff(Stereo24, ChunkSaying("data", 0, TenFrames)), ["never finished", "10 frames (0.0 s)"] },
        { "unfinished, size open", Riff(Stereo24, ChunkSaying("data", 0xFFFF_FFFF, TenFrames)), ["never finished", "10 frames"] },
        { "unfinished, half a frame", Riff(Stereo24, ChunkSaying("data", 0, TenFrames, [1, 2, 3, 4])), ["never finished", "10 frames"] },
        { "unfinished RF64", Outer("RF64", 0xFFFF_FFFF, LongSizes(0, 0, 0), Stereo24, ChunkSaying("data", 0xFFFF_FFFF, TenFrames)), ["never finished", "10 frames"] },
        { "RF64 without long sizes", Outer("RF64", 0xFFFF_FFFF, Stereo24, ChunkSaying("data", 0xFFFF_FFFF, TenFrames)), ["never finished", "10 frames"] },
        { "RF64 with short table", Outer("RF64", 0xFFFF_FFFF, Chunk("ds64", new byte[20]), Stereo24, Chunk("data", TenFrames)), ["'ds64'", "20 bytes", "28"] },
        { "RF64 with impossible size", Outer("RF64", 0xFFFF_FFFF, LongSizes(0, ulong.MaxValue, 0), Stereo24, ChunkSaying("data", 0xFFFF_FFFF, TenFrames)), ["impossible size"] },
        { "AIFF truncated", Form("AIFF", Common(2, 10, 24), Sound(TenFrames))[..^9], ["promises 10 frames", "only 8 are there"] },
        { "AIFF truncated, chunks after", Form("AIFF", Common(2, 11, 24), Sound(TenFrames), BigChunk("NAME", new byte[600])), ["contradicts itself", "11 frames", "10"] },
        { "AIFF unfinished, sizes open", Form("AIFF", Common(2, 10, 24), Join(Ascii("SSND"), Big(0, 4), new byte[8], TenFrames)), ["never finished", "10 frames"] },
        { "AIFF unfinished", Form("AIFF", Common(2, 0, 24), Sound(TenFrames)), ["never finished", "10 frames"] },
        { "AIFF without description", Form("AIFF", Sound(TenFrames)), ["'COMM'"] },
        { "AIFF without samples", Form("AIFF", Common(2, 10, 24)), ["promises 10 frames", "only 0"] },
        { "AIFF compressed", Form("AIFC", Common(2, 10, 16, "ima4"), Sound(TenFrames)), ["'ima4'", "uncompressed"] },
        { "AIFF short description", Form("AIFF", BigChunk("COMM", new byte[10]), Sound(TenFrames)), ["10 bytes", "18"] },
    };

    [Theory]
    [MemberData(nameof(Files))]
    public void A_file_that_is_not_as_it_should_be_is_refused_with_what_was_found(string kind, byte[] bytes, string[] words)
    {
        using var folder = new TestFolder();
        var path = folder.Put($"{kind}.wav", bytes);

        var refusal = Assert.Throws<AudioFileException>(() => AudioReader.Open(path));

        Assert.StartsWith(path, refusal.Message, StringComparison.Ordinal);
        Assert.All(words, word => Assert.Contains(word, refusal.Message, StringComparison.Ordinal));
        File.Delete(path); // still open, this would fail where open files are locked
    }

    [Fact]
    public void A_file_broken_off_anywhere_in_its_header_is_refused_in_words()
    {
        using var folder = new TestFolder();
        byte[][] wholes =
        [
            Outer("RF64", 0xFFFF_FFFF, LongSizes(0, 60, 0), ExtensibleFormat(1, 2, 24, 24), Chunk("bext", new byte[20]), ChunkSaying("data", 0xFFFF_FFFF, TenFrames)),
            Form("AIFC", Common(2, 10, 24, "NONE"), Sound(TenFrames)),
        ];

        foreach (var whole in wholes)
        {
            for (var length = 0; length < whole.Length; length++)
            {
                Assert.Throws<AudioFileException>(() => AudioReader.Open(folder.Put("a.wav", whole[..length])));
            }
        }
    }

    [Fact]
    public void A_header_with_any_byte_changed_is_read_or_refused_but_never_fatal()
    {
        using var folder = new TestFolder();
        byte[][] wholes =
        [
            Outer("RF64", 0xFFFF_FFFF, LongSizes(0, 60, 0), ExtensibleFormat(1, 2, 24, 24), Chunk("abcd", [1, 2, 3]), ChunkSaying("data", 0xFFFF_FFFF, TenFrames)),
            Form("AIFC", Common(2, 10, 24, "NONE"), Sound(TenFrames)),
        ];

        foreach (var whole in wholes)
        {
            for (var at = 0; at < whole.Length - TenFrames.Length; at++)
            {
                foreach (var value in new byte[] { 0, 0x80, 0xFF })
                {
                    var bytes = whole.ToArray();
                    bytes[at] = value;
                    var path = folder.Put("a.wav", bytes);

                    var thrown = Record.Exception(() => Planar.Read(path));

                    Assert.True(thrown is null or AudioFileException, $"byte {at} = {value}: {thrown}");
                }
            }
        }
    }

    [Fact]
    public void A_missing_file_and_a_folder_are_named_as_such()
    {
        using var folder = new TestFolder();

        Assert.Contains("no such file", Assert.Throws<AudioFileException>(() => AudioReader.Open(folder.File("a.wav"))).Message, StringComparison.Ordinal);
        Assert.Contains("no such file", Assert.Throws<AudioFileException>(() => AudioReader.Open(folder.File("b/a.wav"))).Message, StringComparison.Ordinal);
        Assert.Contains("this is a folder", Assert.Throws<AudioFileException>(() => AudioReader.Open(folder.Path)).Message, StringComparison.Ordinal);
        Assert.Contains("not a usable file name", Assert.Throws<AudioFileException>(() => AudioReader.Open("a\0.wav")).Message, StringComparison.Ordinal);
        Assert.Contains("not a usable file name", Assert.Throws<AudioFileException>(() => AudioReader.Open("")).Message, StringComparison.Ordinal);
        Assert.Contains("no such file", Assert.Throws<AudioFileException>(() => FileHash.Sha256(folder.File("a.wav"))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_shrinks_while_it_is_read_is_noticed()
    {
        if (OperatingSystem.IsWindows())
        {
            return; // a file being read cannot be written there
        }

        using var folder = new TestFolder();
        var path = folder.Put("a.wav", Riff(Stereo24, Chunk("data", new byte[6_000_000])));
        using var reader = AudioReader.Open(path);
        using (var shrinking = new FileStream(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite))
        {
            shrinking.SetLength(3_000_000);
        }

        var refusal = Assert.Throws<AudioFileException>(() => reader.Skip(1_000_000));

        Assert.Contains("became shorter", refusal.Message, StringComparison.Ordinal);
    }
}
