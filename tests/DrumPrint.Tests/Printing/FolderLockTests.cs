using DrumPrint.Audio;
using DrumPrint.Files;
using DrumPrint.Printing.Runs;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class FolderLockTests : IDisposable
{
    private const string Body = """
        "tracks": { "a": "a.wav" },
        "buses": { "b": { "from": { "a": 0 } } },
        "prints": [ { "number": 1, "name": "A", "bus": "b" } ]
        """;

    private readonly TestSession _session = new();

    public FolderLockTests() => _session.Track("a.wav", Signals.Hits(4800, 3));

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_second_print_to_a_folder_is_refused_while_the_first_writes_to_it()
    {
        using var other = new FolderLock();
        Directory.CreateDirectory(_session.Prints);
        other.Take(_session.Prints);

        var refused = Assert.Throws<AudioFileException>(() => _session.Print(_session.Chain(Body)));

        Assert.Contains("another print is writing to this folder", refused.Message, StringComparison.Ordinal);
        other.Dispose();
        Assert.Empty(_session.Files());
        _session.Print(_session.Chain(Body));
        Assert.DoesNotContain(_session.Files(), f => f.Contains("lock", StringComparison.Ordinal));
    }

    [Fact]
    public void A_print_does_not_so_much_as_look_at_files_that_another_run_may_be_changing()
    {
        var store = new StoreOptions(Path.Combine(_session.Folder, ".drumprint"));
        _session.Print(_session.Chain(Body), new PrintOptions { Store = store });
        using var other = new FolderLock();
        other.Take(_session.Prints);

        // All that it would find is as it should be, and may be otherwise in the next moment.
        var refused = Assert.Throws<AudioFileException>(() => _session.Print(_session.Chain(Body), new PrintOptions { Store = store }));

        Assert.Contains("another print is writing to this folder", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_lock_that_a_killed_print_left_goes_although_there_is_nothing_to_print()
    {
        _session.Print(_session.Chain(Body));
        var path = Path.Combine(_session.Prints, ".drumprint.lock");
        File.WriteAllText(path, "");

        _session.Print(_session.Chain(Body), new PrintOptions { Store = new StoreOptions(Path.Combine(_session.Folder, ".drumprint")) });
        File.WriteAllText(path, "");
        _session.Print(_session.Chain(Body), new PrintOptions { Store = new StoreOptions(Path.Combine(_session.Folder, ".drumprint")) });

        Assert.False(File.Exists(path));
    }

    [Fact]
    public void What_a_killed_print_left_half_written_is_cleared_away_and_nothing_else()
    {
        Directory.CreateDirectory(_session.Prints);
        File.WriteAllText(Path.Combine(_session.Prints, TemporaryName.New()), "half");
        File.WriteAllText(Path.Combine(_session.Prints, ".notes.partial"), "mine");

        _session.Print(_session.Chain(Body));

        Assert.Equal([".notes.partial"], _session.Files().Where(f => f.EndsWith(".partial", StringComparison.Ordinal)));
    }
}
