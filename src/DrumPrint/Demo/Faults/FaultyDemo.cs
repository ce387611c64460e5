using DrumPrint.Audio;
using DrumPrint.Chains.Reading;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Recording;
using DrumPrint.Files;
using DrumPrint.Printing;
using DrumPrint.Session;

namespace DrumPrint.Demo.Faults;

/// <summary>Writes the invented session with faults in its raw files, its chain and its prints, each of them named in a list.</summary>
public static class FaultyDemo
{
    /// <summary>Name of the text that lists the faults.</summary>
    public const string ListName = FaultList.FileName;

    private const double Recorded = 0.45;
    private const double Printed = 0.95;

    /// <summary>Writes it into a folder of its own, which takes its name once everything is in it.</summary>
    /// <param name="folder">A folder that is not there yet, or is empty: no damaged take shall lie among good ones.</param>
    /// <param name="full">The whole song of 200 s, or the cut of bars 17 to 26.</param>
    /// <param name="hasPrints">Whether to print it, and to damage the prints.</param>
    /// <param name="threads">Threads to print with; null for one for each processor.</param>
    /// <param name="progress">Told how far the work has come, from any thread.</param>
    /// <param name="cancel">Stops the work; nothing is left.</param>
    /// <exception cref="UsageException">Something lies in the folder.</exception>
    /// <exception cref="AudioFileException">A file cannot be written.</exception>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public static FaultyDemoFiles Write(string folder, bool full, bool hasPrints, int? threads, IProgress<DemoProgress>? progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(folder);
        if (File.Exists(folder) || (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any()))
        {
            throw new UsageException($"{folder} is there already, and a damaged session goes into a folder of its own, so that no damaged take lies among good ones. Give demo another folder, or delete this one. Nothing was written.");
        }

        var steps = FileSteps.Plain;
        var parent = Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)))!;
        TextFile.MakeFolder(parent, steps);
        using var held = new FolderLock(steps);
        held.Take(parent, "demo", "give demo another folder");
        Leftovers.ClearFolders(parent, steps);
        var making = Path.Combine(parent, TemporaryName.New());
        try
        {
            var made = Make(making, full, hasPrints, threads, steps, progress, cancel);
            Publish(making, folder, steps);
            return Renamed(made, making, folder);
        }
        finally
        {
            if (Directory.Exists(making))
            {
                steps.TryDeleteFolder(making);
            }
        }
    }

    private static FaultyDemoFiles Make(string folder, bool full, bool hasPrints, int? threads, FileSteps steps, IProgress<DemoProgress>? progress, CancellationToken cancel)
    {
        var map = full ? SongForm.Whole : SongForm.Cut;
        var session = DemoSession.Write(folder, full, new Part(progress, 0, Recorded), cancel);
        var raw = new RawFaults(session, map, steps, cancel);
        TextFile.Write(session.Chain, ChainFaults.Of(ChainText.Of(full)), steps);
        List<DemoFault> faults = [.. raw.BeforePrint()];
        faults.AddRange(ChainFaults.All(map));
        if (hasPrints)
        {
            var report = SessionPrinter.Print(ChainReader.Read(session.Chain), new PrintOptions { Threads = threads }, new Printing(progress), cancel);
            faults.AddRange(new PrintFaults(report.OutFolder, map, steps, cancel).All());
        }

        faults.Add(raw.AfterPrint());
        List<DemoFault> ordered = [.. faults.OrderBy(f => f.Id[0] == 'P').ThenBy(f => int.Parse(f.Id.AsSpan(1), System.Globalization.CultureInfo.InvariantCulture))];
        var list = TextFile.Write(Path.Combine(folder, FaultList.FileName), FaultList.Of(ordered, map, hasPrints), steps);
        progress?.Report(new DemoProgress("Done", 1));
        return new FaultyDemoFiles(session, list, ordered);
    }

    private static void Publish(string making, string folder, FileSteps steps)
    {
        try
        {
            if (Directory.Exists(folder))
            {
                steps.Do("delete the empty folder", () => Directory.Delete(folder));
            }

            steps.Do("name the folder", () => Directory.Move(making, folder));
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(folder, e);
        }
    }

    private static FaultyDemoFiles Renamed(FaultyDemoFiles made, string making, string folder)
    {
        string New(string path) => Path.Combine(folder, Path.GetRelativePath(making, path));
        return made with
        {
            List = New(made.List),
            Session = made.Session with { Chain = New(made.Session.Chain), Tempo = New(made.Session.Tempo), Tracks = [.. made.Session.Tracks.Select(New)], Impulses = [.. made.Session.Impulses.Select(New)] },
        };
    }

    private sealed class Part(IProgress<DemoProgress>? all, double from, double to) : IProgress<DemoProgress>
    {
        public void Report(DemoProgress value) => all?.Report(value with { Fraction = from + ((to - from) * value.Fraction) });
    }

    private sealed class Printing(IProgress<DemoProgress>? all) : IProgress<PrintProgress>
    {
        public void Report(PrintProgress value) => all?.Report(new DemoProgress(value.Activity, Recorded + ((Printed - Recorded) * value.Part)));
    }
}
