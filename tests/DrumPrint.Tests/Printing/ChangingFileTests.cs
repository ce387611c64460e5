using DrumPrint.Audio;
using DrumPrint.Printing;
using DrumPrint.Session;
using DrumPrint.Store;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class ChangingFileTests : IDisposable
{
    private const int Frames = 400_000;
    private const string Body = """
        "tracks": { "a": { "file": "a.wav" } },
        "buses": { "b": { "from": { "a": 0 } } },
        "prints": [ { "number": 1, "name": "A", "bus": "b" } ]
        """;

    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_raw_file_that_changes_between_its_hashing_and_its_end_stops_the_print()
    {
        _session.Track("a.wav", Signals.Hits(Frames, 3));
        var path = Path.Combine(_session.Folder, "a.wav");
        var store = new StoreOptions(Path.Combine(_session.Folder, ".drumprint"));

        var refused = Assert.Throws<AudioFileException>(() => SessionPrinter.Print(_session.Chain(Body), new PrintOptions { BlockFrames = 1000, Threads = 1, Store = store }, new Meddler(path)));

        Assert.Contains("changed while it was being printed", refused.Message, StringComparison.Ordinal);
        Assert.Empty(_session.Files());
        Assert.Empty(StoreContents.List(store.Folder));
    }

    // Changes the last sample of a file once printing has begun; its size stays.
    private sealed class Meddler(string path) : IProgress<PrintProgress>
    {
        private bool _isDone;

        public void Report(PrintProgress value)
        {
            if (value.Part > 0 && !_isDone)
            {
                _isDone = true;
                using var file = new FileStream(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite);
                file.Seek(-1, SeekOrigin.End);
                file.WriteByte(0x3F);
            }
        }
    }
}
