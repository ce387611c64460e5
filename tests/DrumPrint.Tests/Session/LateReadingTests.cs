using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Session;

/// <summary>Raw tracks that are read from a frame in mid-song on.</summary>
public sealed class LateReadingTests : IDisposable
{
    private const int Frames = 40000;
    private const int Read = 3000;

    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Theory]
    [InlineData(48000, 1, 0)]
    [InlineData(48000, 12345, 0)]
    [InlineData(48000, 12345, 77)]
    [InlineData(44100, 100, 0)]
    [InlineData(44100, 23456, 0)]
    [InlineData(44100, 23456, 77)]
    [InlineData(96000, 12345, 0)]
    [InlineData(47999, 23456, 0)]
    [InlineData(32000, 38500, 0)]
    public void It_is_what_reading_from_the_start_comes_to(int rateHz, long frame, long skipped)
    {
        using var whole = Open(rateHz, skipped);
        using var late = Open(rateHz, skipped);
        var (from, at) = (new double[frame + Read], new double[Read]);

        whole.Read(new AudioBlock([from], 0, from.Length));
        late.Start(frame);
        late.Read(new AudioBlock([at], 0, Read));

        Assert.Equal(from[(int)frame..], at);
        Assert.Contains(at, s => s != 0);
    }

    [Fact]
    public void Where_a_hash_is_taken_all_is_read()
    {
        _session.Track("a.wav", Signals.Hits(Frames, 5));
        var path = Path.Combine(_session.Folder, "a.wav");
        using var whole = AudioReader.Open(path);
        using var late = AudioReader.Open(path);

        whole.Read(new AudioBlock([new double[Frames]], 0, Frames));
        late.Skip(1000);
        late.Skip(Frames);

        Assert.Equal(whole.AudioSha256, late.AudioSha256);
    }

    private ITrackSource Open(int rateHz, long skipped)
    {
        _session.Track("a.wav", rateHz, Signals.Hits(Frames, 5));
        var reader = new SoundReader(AudioReader.Open(Path.Combine(_session.Folder, "a.wav"), AudioHashes.None), "a", [0]);
        return rateHz == TestSession.Rate ? new FileTrackSource(reader, skipped) : new ConvertedTrackSource(reader, TestSession.Rate, skipped);
    }
}
