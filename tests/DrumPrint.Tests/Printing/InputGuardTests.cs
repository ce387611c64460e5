using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class InputGuardTests : IDisposable
{
    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Prints_do_not_go_among_raw_tracks_where_the_chain_itself_sends_them()
    {
        var raw = Track("prints/kick.wav");

        var refused = Assert.Throws<UsageException>(() => _session.Print(Chain("prints/kick.wav")));

        Assert.Equal(
            $"{_session.Prints}, where the prints of this chain go: this folder holds track 'a' (kick.wav), and prints do not go among raw tracks and impulses. Print to another folder with --out. Nothing was written.",
            refused.Message);
        Assert.Equal(["kick.wav"], _session.Files());
        Assert.True(File.Exists(raw));
    }

    [Fact]
    public void Folders_that_differ_in_letter_case_are_told_apart_where_the_disk_tells_them_apart()
    {
        Track("raw/a.wav");
        var upper = Directory.CreateDirectory(Path.Combine(_session.Folder, "RAW")).FullName;
        if (Directory.GetFiles(upper).Length > 0)
        {
            return; // one and the same here
        }

        _session.Print(Chain("raw/a.wav"), new PrintOptions { OutFolder = upper });

        Assert.Contains("01_A_Test_v1.wav", _session.Files("RAW"));
        Assert.Equal(["a.wav"], _session.Files("raw"));
    }

    [Fact]
    public void A_link_to_the_raw_tracks_is_their_folder()
    {
        Track("raw/a.wav");
        var link = Path.Combine(_session.Folder, "elsewhere");
        if (!TryLink(() => Directory.CreateSymbolicLink(link, "raw")))
        {
            return;
        }

        var refused = Assert.Throws<UsageException>(() => _session.Print(Chain("raw/a.wav"), new PrintOptions { OutFolder = link }));

        Assert.StartsWith($"--out {link}: this folder holds track 'a'", refused.Message, StringComparison.Ordinal);
        Assert.Equal(["a.wav"], _session.Files("raw"));
    }

    [Fact]
    public void A_track_that_is_a_link_to_a_file_among_the_prints_lies_among_them()
    {
        var real = Track("prints/01_A_Test_v1.wav");
        var before = FileHash.Sha256(real);
        Directory.CreateDirectory(Path.Combine(_session.Folder, "raw"));
        if (!TryLink(() => File.CreateSymbolicLink(Path.Combine(_session.Folder, "raw", "a.wav"), real)))
        {
            return;
        }

        Assert.Throws<UsageException>(() => _session.Print(Chain("raw/a.wav")));

        Assert.Equal(before, FileHash.Sha256(real));
    }

    [Fact]
    public void Links_that_lead_in_a_circle_lead_nowhere()
    {
        var one = Path.Combine(_session.Folder, "one");
        var two = Path.Combine(_session.Folder, "two");
        if (!TryLink(() => File.CreateSymbolicLink(one, two)) || !TryLink(() => File.CreateSymbolicLink(two, one)))
        {
            return;
        }

        Assert.StartsWith(RealPath.Of(_session.Folder), RealPath.Of(one), StringComparison.Ordinal);
    }

    private static bool TryLink(Func<FileSystemInfo> make)
    {
        try
        {
            return make() is not null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException && OperatingSystem.IsWindows())
        {
            return false; // links are a privilege there
        }
    }

    private string Track(string file)
    {
        _session.Track(file, Signals.Hits(4800, 1));
        return Path.Combine(_session.Folder, file);
    }

    private Chain Chain(string file) => _session.Chain($$"""
        "tracks": { "a": "{{file}}" }, "buses": { "bus a": { "from": { "a": 0 } } },
        "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ], "output": { "tail_s": 0 }
        """);
}
