using DrumPrint.Audio;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class WildSampleTests : IDisposable
{
    private const int Rate = 44100;
    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Theory]
    [InlineData(TestSession.Rate, double.NaN, "not a number", "1.500 s (frame 72000 of channel 2)")]
    [InlineData(TestSession.Rate, double.NegativeInfinity, "infinite", "1.500 s (frame 72000 of channel 2)")]
    [InlineData(Rate, double.NaN, "not a number", "1.633 s (frame 72000 of channel 2)")]
    public void A_sample_that_is_no_sound_is_told_by_track_file_and_time(int rate, double sample, string what, string where)
    {
        _session.Track("raw/oh.wav", rate, new double[80000], new double[80000]);
        var path = Path.Combine(_session.Folder, "raw", "oh.wav");
        Break(path, framesBeforeEnd: 8000, sample);
        var chain = _session.Chain("""
            "tracks": { "overheads": { "file": "raw/oh.wav", "convert": true } },
            "buses": { "b": { "from": { "overheads": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "b" } ]
            """);

        var told = Assert.Throws<AudioFileException>(() => _session.Print(chain));

        Assert.Equal(path, told.Path);
        Assert.Contains($"track overheads has a sample that is {what}, at {where}", told.Problem, StringComparison.Ordinal);
        Assert.DoesNotContain(_session.Files(), f => f.EndsWith(".wav", StringComparison.Ordinal));
    }

    // The right sample of a stereo frame; the samples end the file.
    private static void Break(string path, int framesBeforeEnd, double sample)
    {
        var bytes = File.ReadAllBytes(path);
        BitConverter.TryWriteBytes(bytes.AsSpan(bytes.Length - (((framesBeforeEnd * 2) - 1) * sizeof(double))), sample);
        File.WriteAllBytes(path, bytes);
    }
}
