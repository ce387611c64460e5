using System.Diagnostics;
using System.Net.Sockets;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Comparing;
using DrumPrint.Demo;
using DrumPrint.Files;
using DrumPrint.Session;
using DrumPrint.Tests.Audio;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Files;

/// <summary>What a chain or the command line names may be anything that has a name.</summary>
public sealed class IrregularFileTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private readonly TestFolder _folder = new();

    public static TheoryData<string, string> KindsAndReaders
    {
        get
        {
            var data = new TheoryData<string, string>();
            foreach (var kind in new[] { "pipe", "device", "socket" })
            {
                foreach (var reader in Readers.Keys)
                {
                    data.Add(kind, reader);
                }
            }

            return data;
        }
    }

    private static Dictionary<string, Action<string>> Readers { get; } = new()
    {
        ["sound"] = path => AudioReader.Open(path).Dispose(),
        ["hash"] = path => FileHash.Sha256(path),
        ["chain"] = path => ChainReader.Read(path),
        ["tempo"] = path => TempoReader.Read(path),
        ["ticket"] = path => Ticket.Read(path),
        ["part"] = path => PrintPart.Read(path),
        ["page"] = path => PageText.IsPage(path),
        ["text"] = path => TextFile.Find(path),
    };

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(KindsAndReaders))]
    public async Task Nothing_but_a_file_is_read_and_what_it_is_instead_is_said(string kind, string reader)
    {
        if (OperatingSystem.IsWindows())
        {
            return; // such files have no names there
        }

        using var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        var path = Make(kind, socket);

        var reading = Task.Run(() => Readers[reader](path));
        await Task.WhenAny(reading, Task.Delay(Patience));

        Assert.True(reading.IsCompleted, "it waits for the pipe");
        var refused = await Assert.ThrowsAnyAsync<DrumPrintException>(() => reading);
        Assert.Contains($"it is a {kind}, not a file", refused.Message, StringComparison.Ordinal);
        Assert.Contains(path, refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("tracks")]
    [InlineData("impulses")]
    public async Task A_session_that_names_a_pipe_is_refused_by_the_name_of_the_track(string part)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        using var session = new TestSession();
        session.Track("a.wav", Signals.Hits(480, 1));
        MakePipe(Path.Combine(session.Folder, "b.wav"));
        var chain = session.Chain(part == "tracks"
            ? """ "tracks": { "a": "a.wav", "b": "b.wav" }, "buses": { "x": { "from": { "a": 0, "b": 0 } } }, "prints": [ { "number": 1, "name": "X", "bus": "x" } ] """
            : """ "tracks": { "a": "a.wav" }, "impulses": { "b": { "file": "b.wav" } }, "buses": { "x": { "from": { "a": 0 }, "through": [ { "convolve": { "impulse": "b" } } ] } }, "prints": [ { "number": 1, "name": "X", "bus": "x" } ] """);

        var printing = Task.Run(() => session.Print(chain));
        await Task.WhenAny(printing, Task.Delay(Patience));

        Assert.True(printing.IsCompleted, "it waits for the pipe");
        var refused = await Assert.ThrowsAsync<InputException>(() => printing);
        Assert.Contains("'b': ", refused.Message, StringComparison.Ordinal);
        Assert.Contains("it is a pipe, not a file", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_chain_that_names_a_device_for_its_tempo_is_told_its_line()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        MakePipe(_folder.File("tempo.json"));
        File.WriteAllText(_folder.File("a.chain.json"), """
            {
              "chain": 1,
              "song": { "title": "T", "code": "T", "rate_hz": 48000, "tempo": "tempo.json" },
              "tracks": { "a": "a.wav" }, "buses": { "b": { "from": { "a": 0 } } }, "prints": [ { "number": 1, "name": "A", "bus": "b" } ]
            }
            """);

        var refused = Assert.Throws<ChainException>(() => ChainReader.Read(_folder.File("a.chain.json")));

        Assert.Contains("a.chain.json:3:", refused.Message, StringComparison.Ordinal);
        Assert.Contains("it is a pipe, not a file", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("chain", 16)]
    [InlineData("tempo", 16)]
    [InlineData("ticket", 64)]
    public void Texts_have_a_largest_size_and_its_figure_is_said(string reader, int mostMegabytes)
    {
        using (var file = File.Create(_folder.File("a.json")))
        {
            file.SetLength((mostMegabytes << 20) + 1);
        }

        var refused = Assert.ThrowsAny<DrumPrintException>(() => Readers[reader](_folder.File("a.json")));

        Assert.Contains($"at most {mostMegabytes} MB are read of such a file", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sound_file_in_place_of_a_chain_is_told_as_one_however_large()
    {
        using (var file = File.Create(_folder.File("a.wav")))
        {
            file.Write("RIFF"u8);
            file.SetLength(100 << 20);
        }

        Assert.Contains("this is a sound file (WAV)", Assert.Throws<UnreadableFileException>(() => ChainReader.Read(_folder.File("a.wav"))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_a_folder_and_nothing_pass()
    {
        RegularFile.Check(_folder.Put("a", []));
        RegularFile.Check(_folder.Path);
        RegularFile.Check(_folder.File("nothing"));
    }

    private string Make(string kind, Socket socket)
    {
        var path = _folder.File("a.json");
        switch (kind)
        {
            case "pipe":
                MakePipe(path);
                return path;
            case "device":
                return "/dev/zero";
            default:
                socket.Bind(new UnixDomainSocketEndPoint(path));
                return path;
        }
    }

    private static void MakePipe(string path)
    {
        using var making = Process.Start("mkfifo", [path]);
        making.WaitForExit();
    }
}
