using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Comparing;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Measuring;
using static DrumPrint.Tests.Audio.FileBytes;

namespace DrumPrint.Tests.Audio;

/// <summary>What a header claims costs nothing; what is wild is a message.</summary>
public sealed class BoundedMemoryTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_file_of_65535_channels_is_refused_by_that_figure_within_little_memory()
    {
        var path = _folder.Put("a.wav", Riff(Format(1, 65535, 8), Chunk("data", new byte[65535])));

        var bytes = Allocated(() => Assert.Contains("has 65535 channels; files of up to 1024", Assert.Throws<AudioFileException>(() => FileMeter.Measure(path)).Message, StringComparison.Ordinal));

        Assert.InRange(bytes, 0, 16 << 20);
    }

    [Fact]
    public void Memory_for_many_channels_goes_by_what_a_file_holds()
    {
        var path = _folder.Put("a.wav", Riff(Format(1, 1024, 8), Chunk("data", new byte[1024])));

        Assert.InRange(Allocated(() => FileMeter.Measure(path)), 0, 128 << 20);
    }

    [Fact]
    public void A_header_of_very_many_parts_is_broken()
    {
        var path = _folder.Put("a.wav", Riff(Join([.. Enumerable.Repeat(Chunk("abcd"), 20_000)]), Format(1, 1, 16), Chunk("data", [0, 0])));

        Assert.Contains("it is in more than 10000 parts", Assert.Throws<AudioFileException>(() => AudioReader.Open(path)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_title_of_ten_million_characters_is_named_by_its_length()
    {
        var path = _folder.File("a.chain.json");
        File.WriteAllText(path, $$"""
            { "chain": 1, "song": { "title": "{{new string('x', 10_000_000)}}", "code": "T", "rate_hz": 48000 },
              "tracks": { "a": "a.wav" }, "buses": { "b": { "from": { "a": 0 } } }, "prints": [ { "number": 1, "name": "A", "bus": "b" } ] }
            """);

        var bytes = Allocated(() => Assert.Contains("'title' is 10000000 characters long; at most 4000", Assert.Throws<ChainException>(() => ChainReader.Read(path)).Message, StringComparison.Ordinal));

        Assert.InRange(bytes, 0, 100 << 20);
    }

    [Theory]
    [InlineData(1.797e308)]
    [InlineData(-1e200)]
    [InlineData(2e15)]
    public void A_sample_beyond_all_measure_is_told_with_its_place_when_compared(double sample)
    {
        var samples = new double[48000];
        samples[4321] = sample;
        var path = _folder.Put("a.wav", Riff(Format(3, 1, 64), Chunk("data", [.. samples.SelectMany(BitConverter.GetBytes)])));

        var refused = Assert.Throws<AudioFileException>(() => Comparer.Compare(path, path, new ComparisonOptions { From = _ => 0, To = _ => 1 }));

        Assert.Contains("frame 4321 of channel 1 stands more than 300 dB above full scale", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sound_at_300_dB_is_still_compared_and_its_page_written()
    {
        var samples = Enumerable.Range(0, 48000).Select(n => 9e14 * Math.Sin(n / 10.0));
        var path = _folder.Put("a.wav", Riff(Format(3, 1, 64), Chunk("data", [.. samples.SelectMany(BitConverter.GetBytes)])));

        ComparisonPage.Write(_folder.File("a.html"), Comparer.Compare(path, path, new ComparisonOptions { From = _ => 0, To = _ => 1 }));

        Assert.True(new FileInfo(_folder.File("a.html")).Length > 100_000);
    }

    private static long Allocated(Action action)
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        action();
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }
}
