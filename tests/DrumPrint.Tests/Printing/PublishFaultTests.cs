using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Printing;

/// <summary>Whatever step of a print fails, or is the last before the process ends, the folder holds all of the old set or all of
/// the new.</summary>
public sealed class PublishFaultTests : IDisposable
{
    private const string Edited = "02_B_Test_v1.wav";
    private const string TicketName = "Test_v1.ticket.json";

    private readonly TestSession _session = new();
    private readonly byte[] _edited;
    private readonly Dictionary<string, string> _old;
    private readonly Dictionary<string, string> _new;

    public PublishFaultTests()
    {
        _session.Track("a.wav", Signals.Hits(4800, 1));
        Print(-4, "new");
        _new = Set("new");
        Print(-3);
        Kept.Flip(Path.Combine(_session.Prints, Edited), 0.9);
        _edited = File.ReadAllBytes(Path.Combine(_session.Prints, Edited));
        _old = Set("prints");
        Copy(_session.Prints, Path.Combine(_session.Folder, "template"));
    }

    /// <summary>How a step goes wrong.</summary>
    public enum Fault
    {
        /// <summary>It fails, and what comes after does not.</summary>
        Fails,

        /// <summary>It fails, and so does everything after it.</summary>
        FailsFromThere,

        /// <summary>The process ends before it.</summary>
        Ends,
    }

    public void Dispose() => _session.Dispose();

    [Theory]
    [InlineData(Fault.Fails, false)]
    [InlineData(Fault.FailsFromThere, false)]
    [InlineData(Fault.Ends, false)]
    [InlineData(Fault.Ends, true)]
    public void After_the_next_print_all_is_old_or_all_is_new(Fault fault, bool first)
    {
        var outcomes = new HashSet<bool>();
        var steps = 0;
        for (var isOver = false; !isOver; steps++)
        {
            Restore(first);
            var watch = new Watch(this, fault, steps);
            isOver = !watch.Trips(() => Print(-4, steps: watch.Before));
            if (isOver)
            {
                break;
            }

            if (fault == Fault.Fails)
            {
                // It has put right what it had done, if it could; the very step that undoes may be the one that fails.
                Assert.True(SetJournal.IsIn(_session.Prints) || IsOld(first) || IsNew(first), watch.Where);
            }

            Recover();
            Assert.True(IsOld(first) || IsNew(first), $"{watch.Where}: {string.Join(", ", _session.Files())}");
            Assert.Empty(Directory.GetFiles(_session.Prints, ".drumprint*"));
            outcomes.Add(IsNew(first));

            // Recovered, the folder is like any other.
            if (steps % 5 == 0)
            {
                Print(-4);
                Assert.True(IsNew(first), watch.Where);
            }
        }

        Assert.InRange(steps, first ? 12 : 18, 100);
        Assert.True(fault != Fault.Ends || outcomes.Count == 2, "A process that ends early leaves the old set, one that ends late the new one.");
    }

    [Fact]
    public void An_edit_made_while_a_set_was_unfinished_is_kept()
    {
        for (var step = 0; ; step++)
        {
            Restore(isFirst: false);
            var watch = new Watch(this, Fault.Ends, step);
            if (!watch.Trips(() => Print(-4, steps: watch.Before)))
            {
                break;
            }

            var path = Path.Combine(_session.Prints, "01_A_Test_v1.wav");
            if (!File.Exists(path))
            {
                continue;
            }

            Kept.Flip(path, 0.8);
            var mine = File.ReadAllBytes(path);

            Print(-5);

            Assert.Contains(Directory.GetFiles(Path.Combine(_session.Prints, "changed")), f => File.ReadAllBytes(f).AsSpan().SequenceEqual(mine));
            Assert.Contains(Directory.GetFiles(Path.Combine(_session.Prints, "changed")), f => File.ReadAllBytes(f).AsSpan().SequenceEqual(_edited));
        }
    }

    [Fact]
    public void A_print_that_cannot_be_replaced_leaves_the_whole_set_and_says_so()
    {
        Restore(isFirst: false);

        var e = Assert.Throws<AudioFileException>(() => Print(-4, steps: step =>
        {
            if (step.StartsWith("move 01_A_Test_v1.wav", StringComparison.Ordinal))
            {
                throw new UnauthorizedAccessException();
            }
        }));

        Assert.Equal(
            $"{Path.Combine(_session.Prints, "01_A_Test_v1.wav")}: the file cannot be written: the permissions of the folder or of an older file forbid it. "
            + $"02_B_Test_v1.wav, 90_RoughPreBus_Test_v1.wav and {TicketName} had made way or taken their names, and that was undone. "
            + "Nothing of the set has changed: every print and the ticket are as they were.",
            e.Message);
        Assert.True(IsOld(false));
    }

    [Fact]
    public void A_folder_with_an_unfinished_set_says_so_to_whoever_reads_it()
    {
        Restore(isFirst: false);
        var watch = new Watch(this, Fault.Ends, int.MaxValue) { Step = "move 01_A_Test_v1.wav" };
        Assert.True(watch.Trips(() => Print(-4, steps: watch.Before)));

        var note = $"{_session.Prints} holds no whole set: the last print to it was stopped while its files took their names, so they may be of two prints. Print again to finish it.";
        Assert.Equal([note], UnfinishedSet.Notes(_session.Prints));
        Assert.Equal([note], UnfinishedSet.Notes(_session.Folder));
        Assert.Equal([note], UnfinishedSet.Notes(Path.Combine(_session.Prints, "90_RoughPreBus_Test_v1.wav")));

        var report = Print(-4);
        Assert.Equal($"The last print to {_session.Prints} was stopped while its files took their names. That was finished first.", report.FolderNotes[0]);
        Assert.Empty(UnfinishedSet.Notes(_session.Prints));
    }

    [Theory]
    [InlineData("""{ "journal": 2, "kept": "changed", "set": [ { "name": "../a.wav", "staged": "T1", "new_sha256": "x" } ] }""")]
    [InlineData("""{ "journal": 2, "kept": "changed", "set": [ { "name": "/tmp/a.wav", "staged": "T1", "new_sha256": "x" } ] }""")]
    [InlineData("""{ "journal": 2, "kept": "changed", "set": [ { "name": "notes.txt", "old_sha256": "x", "before": "T1" } ] }""")]
    [InlineData("""{ "journal": 2, "kept": "..", "set": [ { "name": "01_A_Test_v1.wav", "old_sha256": "x", "kept_as": "01_A_Test_v1.wav" } ] }""")]
    [InlineData("""{ "journal": 2, "kept": "changed", "set": [ { "name": "01_A_Test_v1.wav", "staged": "../a.wav", "new_sha256": "x" } ] }""")]
    [InlineData("""{ "journal": 2, "kept": "changed", "set": [ { "name": "01_A_Test_v1.wav", "old_sha256": "x", "before": "a.wav" } ] }""")]
    [InlineData("""{ "journal": 2, "kept": "changed", "set": [ { "name": "01_A_Test_v1.wav", "old_sha256": "x", "kept_as": "../../a.wav" } ] }""")]
    [InlineData("""{ "journal": 1, "kept": "changed", "set": [ { "name": "01_A_Test_v1.wav", "old_sha256": "x", "before": "T1" } ] }""")]
    [InlineData("""{ "journal": 1 }""")]
    [InlineData("")]
    public void A_received_journal_moves_nothing_but_files_of_our_own_naming(string journal)
    {
        Restore(isFirst: false);
        var path = Path.Combine(_session.Prints, SetJournal.FileName);
        File.WriteAllText(path, journal.Replace("T1", TemporaryName.New(), StringComparison.Ordinal));
        File.WriteAllText(Path.Combine(_session.Prints, "notes.txt"), "mine");
        var before = Set("prints");

        var e = Assert.Throws<AudioFileException>(() => Print(-4));

        Assert.StartsWith($"{path}: this is no list of files that your DrumPrint wrote on this machine", e.Message, StringComparison.Ordinal);
        Assert.Equal(before, Set("prints"));
        Assert.True(File.Exists(path));
    }

    private PrintReport Print(double levelDb, string folder = "prints", Action<string>? steps = null) => _session.Print(
        _session.Chain(string.Create(CultureInfo.InvariantCulture, $$"""
            "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": {{levelDb}} } }, "bus b": { "from": { "a": {{levelDb - 6}} } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" }, { "number": 2, "name": "B", "bus": "bus b" } ], "output": { "tail_s": 0 }
            """)),
        new PrintOptions { OutFolder = Path.Combine(_session.Folder, folder), Threads = 1, Steps = new QuickFiles(steps) });

    // The next print, stopped before it makes anything of its own.
    private void Recover()
    {
        Assert.ThrowsAny<OperationCanceledException>(() => Print(-4, steps: step =>
        {
            if (step.StartsWith("create", StringComparison.Ordinal))
            {
                throw new OperationCanceledException();
            }
        }));
    }

    private bool IsOld(bool isFirst) => isFirst ? Set("prints").Count == 0 : Same(Set("prints"), _old) && KeptFiles().Length == 0;

    private bool IsNew(bool isFirst) => Same(Set("prints"), _new) && IsTicketTrue() && (isFirst ? KeptFiles().Length == 0 : KeptFiles() is [var kept] && File.ReadAllBytes(kept).AsSpan().SequenceEqual(_edited));

    private bool IsTicketTrue() => Ticket.Read(Path.Combine(_session.Prints, TicketName)).Prints.All(p => FileHash.Sha256(Path.Combine(_session.Prints, p.FileName)) == p.FileSha256);

    private string[] KeptFiles() => Directory.Exists(Path.Combine(_session.Prints, "changed")) ? Directory.GetFiles(Path.Combine(_session.Prints, "changed")) : [];

    private static bool Same(Dictionary<string, string> a, Dictionary<string, string> b) => a.Count == b.Count && a.All(f => b.GetValueOrDefault(f.Key) == f.Value);

    private Dictionary<string, string> Set(string folder) => !Directory.Exists(Path.Combine(_session.Folder, folder)) ? [] : Directory
        .GetFiles(Path.Combine(_session.Folder, folder))
        .Where(f => !Path.GetFileName(f).StartsWith('.'))
        .ToDictionary(f => Path.GetFileName(f), f => FileHash.Sha256(f));

    private void Restore(bool isFirst)
    {
        Clear(_session.Prints);
        if (!isFirst)
        {
            Copy(Path.Combine(_session.Folder, "template"), _session.Prints);
        }
    }

    private static void Clear(string folder)
    {
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Copy(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (var file in Directory.GetFiles(from, "*", SearchOption.AllDirectories).Where(f => !f.EndsWith(".lock", StringComparison.Ordinal)))
        {
            var target = Path.Combine(to, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            try
            {
                using var bytes = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
                using var copy = File.Create(target);
                bytes.CopyTo(copy);
            }
            catch (IOException)
            {
                File.WriteAllText(target, "half"); // still being written
            }
        }
    }

    private sealed class EndedException : Exception;

    // Counts steps and lets one go wrong. A process that ends leaves the folder as it is at that moment.
    private sealed class Watch(PublishFaultTests test, Fault fault, int at)
    {
        private readonly Lock _gate = new();
        private int _count;

        public string? Step { get; init; }

        public string Where { get; private set; } = "";

        private string Snapshot => Path.Combine(test._session.Folder, "snapshot");

        // Some steps are taken by other threads.
        public void Before(string step)
        {
            lock (_gate)
            {
                Count(step);
            }
        }

        private void Count(string step)
        {
            var n = _count++;
            if (Where.Length > 0 && fault == Fault.FailsFromThere)
            {
                throw new IOException("it fails still");
            }

            if (Where.Length > 0 || (n != at && (Step is null || !step.StartsWith(Step, StringComparison.Ordinal))))
            {
                return;
            }

            Where = $"{n}: {step}";
            if (fault != Fault.Ends)
            {
                throw new IOException("it fails");
            }

            Clear(Snapshot);
            if (Directory.Exists(test._session.Prints))
            {
                Copy(test._session.Prints, Snapshot);
            }

            throw new EndedException();
        }

        /// <summary>Whether it went wrong.</summary>
        public bool Trips(Action print)
        {
            try
            {
                print();
            }
            catch (Exception e) when (e is EndedException or AudioFileException or IOException)
            {
                Assert.NotEqual("", Where);
            }

            if (fault == Fault.Ends && Where.Length > 0)
            {
                Clear(test._session.Prints);
                if (Directory.Exists(Snapshot))
                {
                    Copy(Snapshot, test._session.Prints);
                }
            }

            return Where.Length > 0;
        }
    }
}
