using System.Globalization;
using DrumPrint.Aligning;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Comparing;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Delivering;
using DrumPrint.Demo;
using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Recording;
using DrumPrint.Files;
using DrumPrint.Reprinting;
using DrumPrint.Session;
using DrumPrint.Tests.Delivering;
using DrumPrint.Tests.Support;
using Xunit.Abstractions;

namespace DrumPrint.Tests.Files;

/// <summary>Every single step by which a command changes the disk fails, is torn, or is the last before the process ends. What has a name is
/// whole before and after, and the same command again gives what it would have given.</summary>
public sealed class FaultSweepTests : IDisposable
{
    private const string Mine = "mine";

    private readonly TestSession _session = new();
    private readonly ITestOutputHelper _output;
    private readonly string _ticket;

    public FaultSweepTests(ITestOutputHelper output)
    {
        _output = output;
        _session.Track("a.wav", Signals.Hits(2400, 1));
        File.WriteAllText(At("tempo.json"), """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 120 } ], "last_bar": 2 }""");
        Print(-3, FileSteps.Plain, "prints");
        Print(-4, FileSteps.Plain, "new");
        _ticket = At("new/Test_v1.ticket.json");
    }

    public static TheoryData<Fault> Faults => [.. Enum.GetValues<Fault>()];

    public void Dispose() => _session.Dispose();

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_print_with_its_store(Fault fault) => Sweep(
        fault,
        ["prints", ".drumprint"],
        steps => Print(-4, steps, "prints", hasStore: true),
        Whole("prints", "new"),
        least: fault == Fault.Tears ? 8 : 60);

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_print_with_a_store_that_is_there(Fault fault)
    {
        Print(-3, FileSteps.Plain, "prints", hasStore: true);

        Sweep(
            fault,
            ["prints", ".drumprint"],
            steps => Print(-4, steps, "prints", hasStore: true),
            Whole("prints", "new"),
            least: fault == Fault.Tears ? 5 : 40);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_reprint_that_is_kept(Fault fault)
    {
        Reprint(FileSteps.Plain, At("wanted"));
        Copy(At("prints"), At("out"));
        File.Delete(At("out/Test_v1.ticket.json"));

        Sweep(fault, ["out"], steps => Reprint(steps, At("out")), Whole("out", "wanted"), least: fault == Fault.Tears ? 5 : 30);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_chain_that_is_written_again(Fault fault)
    {
        ChainRecovery.Write(_ticket, At("wanted/back.chain.json"));
        Directory.CreateDirectory(At("back"));

        Sweep(
            fault,
            ["back"],
            steps =>
            {
                if (!File.Exists(At("back/back.chain.json")))
                {
                    ChainRecovery.Write(_ticket, At("back/back.chain.json"), null, steps);
                }
            },
            Whole("back", "wanted"),
            least: fault == Fault.Tears ? 2 : 10);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_chain_that_align_writes_into_and_takes_back(Fault fault)
    {
        const string Name = "chain/a.chain.json";
        Directory.CreateDirectory(At("chain"));
        File.WriteAllText(At(Name), $$"""{ "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000 }, {{Body(-3)}} }""");
        var moved = new AlignmentMove("a", 1.5, true).WriteInto(File.ReadAllBytes(At(Name)), ChainReader.Read(At(Name)));
        var before = File.ReadAllBytes(At(Name));

        Sweep(
            fault,
            ["chain"],
            steps =>
            {
                AlignmentEdit.Apply(At(Name), ChainReader.Read(At(Name)), [new AlignmentMove("a", 1.5, true)], steps);
                AlignmentEdit.Undo(At(Name), steps);
            },
            (where, isOver) =>
            {
                var now = File.ReadAllBytes(At(Name));
                Assert.True(now.AsSpan().SequenceEqual(before) || (!isOver && now.AsSpan().SequenceEqual(moved)), where);
            },
            least: fault == Fault.Tears ? 3 : 12,
            leavesNothing: false);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_page(Fault fault)
    {
        Page(FileSteps.Plain, "wanted", -5);
        Page(FileSteps.Plain, "page", -6);

        Sweep(fault, ["page"], steps => Page(steps, "page", -5), Whole("page", "wanted"), least: fault == Fault.Tears ? 5 : 20);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_demo(Fault fault)
    {
        Demo(FileSteps.Plain, "wanted");
        Directory.CreateDirectory(At("demo"));

        Sweep(fault, ["demo"], steps => Demo(steps, "demo"), Whole("demo", "wanted"), least: fault == Fault.Tears ? 5 : 30);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_delivery(Fault fault)
    {
        Deliver(FileSteps.Plain, "wanted");
        Directory.CreateDirectory(At("out"));

        Sweep(fault, ["out"], steps => Deliver(steps, "out"), Whole("out", "wanted"), least: fault == Fault.Tears ? 10 : 25);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public void The_secret_of_a_user(Fault fault)
    {
        Directory.CreateDirectory(At("settings"));

        Sweep(
            fault,
            ["settings"],
            steps => UserSecret.ReadOrMake(At("settings/store.key"), steps),
            (where, isOver) =>
            {
                var key = At("settings/store.key");
                Assert.True(isOver ? File.ReadAllText(key).Length == 65 : !File.Exists(key) || File.ReadAllText(key).Length == 65, where);
            },
            least: fault == Fault.Tears ? 1 : 5,
            leavesNothing: false);
    }

    // What goes wrong is told in a sentence, nothing of ours is half, nothing of somebody else's is touched; then the same again.
    private void Sweep(Fault fault, string[] folders, Action<FileSteps> run, Action<string, bool> check, int least, bool leavesNothing = true)
    {
        foreach (var folder in folders.Where(f => Directory.Exists(At(f))))
        {
            File.WriteAllText(At($"{folder}/{Mine}.txt"), Mine);
            Copy(At(folder), At($"before/{folder}"));
        }

        var states = new FolderStates();
        for (var at = 0; ; at++)
        {
            foreach (var folder in folders)
            {
                Clear(At(folder));
                Copy(At($"before/{folder}"), At(folder));
            }

            if (at == 0)
            {
                states.IsNew(folders.Select(At)); // tried last, without a fault
            }

            var steps = new FaultyFiles(fault, at);
            var thrown = Record.Exception(() => run(steps));
            if (steps.Where is not { } where)
            {
                Assert.Null(thrown);
                check("without a fault", true);
                Assert.InRange(at, least, 400);
                _output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{at} steps"));
                return;
            }

            Assert.True(fault == Fault.Ends || thrown is null || IsSentence(thrown), $"{where}: {thrown}");
            check(where, false);
            if (!states.IsNew(folders.Select(At)))
            {
                continue;
            }

            run(new QuickFiles());
            check(where, true);
            foreach (var folder in folders.Where(f => Directory.Exists(At($"before/{f}"))))
            {
                Assert.Equal(Mine, File.ReadAllText(At($"{folder}/{Mine}.txt")));
            }

            if (leavesNothing)
            {
                Assert.True(folders.SelectMany(Ours).FirstOrDefault() is not { } left, $"{where}: {folders.SelectMany(Ours).FirstOrDefault()} is left");
            }
        }
    }

    // Those that the command line turns into a sentence and the exit code 3.
    private static bool IsSentence(Exception e) =>
        e is AudioFileException or UnreadableFileException or InputException or IOException or UnauthorizedAccessException
        && !e.Message.Contains("its reason", StringComparison.Ordinal)
        && (e is not IOException || FileReason.Of(e) == "there is not enough room on the disk");

    // Each file is the old or the new one; once it is over, they are the new ones.
    private Action<string, bool> Whole(string folder, string wanted)
    {
        var old = DeliverySession.Bytes(At(folder));
        var now = DeliverySession.Bytes(At(wanted));
        return (where, isOver) =>
        {
            foreach (var (name, bytes) in DeliverySession.Bytes(At(folder)).Where(f => !IsOurs(f.Key) && Path.GetFileName(f.Key) != $"{Mine}.txt"))
            {
                Assert.True((!isOver && old.GetValueOrDefault(name) == bytes) || now.GetValueOrDefault(name) == bytes, $"{where}: {name} is neither the old nor the new one");
            }

            Assert.True(!isOver || now.Keys.All(n => File.Exists(At($"{folder}/{n}"))), $"{where}: a file is missing");
        };
    }

    private IEnumerable<string> Ours(string folder) => Directory.Exists(At(folder))
        ? Directory.GetFileSystemEntries(At(folder), "*", SearchOption.AllDirectories).Where(f => IsOurs(Path.GetRelativePath(At(folder), f)))
        : [];

    private static bool IsOurs(string path) => path.Split('/', '\\').Any(p => p.StartsWith(".drumprint", StringComparison.Ordinal));

    private void Print(double levelDb, FileSteps steps, string to, bool hasStore = false) => _session.Print(Chain(levelDb), new PrintOptions
    {
        OutFolder = At(to),
        Threads = 1,
        Steps = steps,
        Store = hasStore ? new StoreOptions(At(".drumprint")) : null,
    });

    private Chain Chain(double levelDb) => _session.Chain(Body(levelDb), "\"tempo\": \"tempo.json\"");

    // The saturated bus is costly, so its signal is kept.
    private static string Body(double levelDb) => string.Create(CultureInfo.InvariantCulture, $$"""
        "tracks": { "a": "a.wav" }, "buses": { "hot": { "from": { "a": -9 }, "through": [ { "saturate": {} } ] }, "bus a": { "from": { "hot": {{levelDb}} } } },
        "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ], "output": { "tail_s": 0 }
        """);

    private void Reprint(FileSteps steps, string to) => Reprinter.Reprint(_ticket, new ReprintOptions { OutFolder = to, Threads = 1, Steps = steps });

    private void Page(FileSteps steps, string folder, double levelDb)
    {
        Directory.CreateDirectory(At(folder));
        foreach (var level in new[] { -4, levelDb })
        {
            File.WriteAllText(At(string.Create(CultureInfo.InvariantCulture, $"{level}.chain.json")), $$"""{ "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000 }, {{Body(level)}} }""");
        }

        var options = new ComparisonOptions { ForPage = true, Threads = 1, Steps = steps };
        var report = Comparer.Compare(At("-4.chain.json"), At(string.Create(CultureInfo.InvariantCulture, $"{levelDb}.chain.json")), options);
        ComparisonPage.Write(At($"{folder}/a.html"), report, steps);
    }

    private void Demo(FileSteps steps, string folder) => DemoSession.Write(At(folder), full: false, new DemoTake(480, [.. Microphones.All.Take(2)], [("small.wav", [[1, 0.5]])]), steps, null, CancellationToken.None);

    private void Deliver(FileSteps steps, string folder) => Deliverer.Deliver(Chain(-3), new DeliveryOptions { To = At(folder), Zips = true, Contact = "mail@example.org", Steps = steps });

    private string At(string name) => Path.Combine(_session.Folder, name);

    private static void Clear(string folder)
    {
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Copy(string from, string to)
    {
        if (Directory.Exists(from))
        {
            DeliverySession.Copy(from, to);
        }
    }
}
