using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Language;
using DrumPrint.Printing.Runs;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>Prints that somebody has changed since they were printed: a new print takes their name, and they are kept.</summary>
/// <remarks>The ticket beside a print says what its bytes were. Without one, a print that says it was made just as the new one is
/// must be the new one.</remarks>
internal sealed class ChangedPrints
{
    /// <summary>Where they are kept, in the folder of the prints.</summary>
    public const string FolderName = "changed";

    private readonly string _folder;
    private readonly List<PrintFigures> _changed;
    private readonly RunSetup _setup;

    private readonly bool _isGoingBack;

    private ChangedPrints(RunSetup setup, List<PrintFigures> changed, bool isGoingBack)
    {
        _setup = setup;
        _changed = changed;
        _isGoingBack = isGoingBack;
        _folder = Path.Combine(setup.Folder, FolderName);
    }

    /// <summary>What is to be told of them, in sentences; none when there are none.</summary>
    public IReadOnlyList<string> Notes => _changed.Count == 0
        ? []
        : [$"{(_isGoingBack ? "Printed with other settings before a newer version was" : "Changed or damaged after printing")}: {Show.List([.. _changed.Select(f => string.Create(CultureInfo.InvariantCulture, $"{f.Target.Number:00}_{f.Target.Name}"))])}. The new {(_changed.Count == 1 ? "print takes its name; the file that was there is" : "prints take their names; the files that were there are")} kept in {_folder}."];

    /// <summary>Looks for them among the files that are about to be replaced.</summary>
    /// <param name="setup">A run of the whole song.</param>
    /// <param name="chosen">The prints it was to make, all finished.</param>
    /// <param name="ticket">The ticket that lies there; null without one.</param>
    /// <param name="isGoingBack">Whether the chain goes back to a version that was handed out: then every print of it is kept.</param>
    /// <param name="newPart">What a new print carries.</param>
    /// <param name="cancel">Stops it.</param>
    public static ChangedPrints Find(RunSetup setup, IReadOnlyList<PrintFigures> chosen, Ticket? ticket, bool isGoingBack, Func<PrintFigures, PrintPart> newPart, CancellationToken cancel)
    {
        InputGuard.Check(Path.Combine(setup.Folder, FolderName), isChosen: false, setup.Inputs);
        var there = chosen.Where(f => f.Writer is not null && new FileInfo(setup.PathOf(f.Target)) is { Exists: true, Length: > 0 }).ToList();
        var hashes = ManyFiles.Each(there.Select(f => setup.PathOf(f.Target)), setup.Threads, FileHash.Sha256, cancel);
        return new ChangedPrints(setup, [.. there.Where(IsChanged)], isGoingBack);

        bool IsChanged(PrintFigures figures)
        {
            var path = setup.PathOf(figures.Target);
            if (hashes[path] == figures.Writer!.FileSha256)
            {
                return false;
            }

            var name = Path.GetFileName(path);
            return isGoingBack || (ticket?.Prints.FirstOrDefault(p => p.FileName == name) is { } recorded
                ? hashes[path] != recorded.FileSha256
                : IsMadeAlike(path, newPart(figures)));
        }
    }

    /// <summary>Whether the file that a print replaces is one of them.</summary>
    public bool Keeps(PrintFigures figures) => _changed.Contains(figures);

    /// <summary>Moves the file of one of them out of the way of the new print; does nothing for any other.</summary>
    /// <exception cref="AudioFileException">It cannot be moved.</exception>
    public void SetAside(PrintFigures figures)
    {
        if (!Keeps(figures))
        {
            return;
        }

        var path = _setup.PathOf(figures.Target);
        var kept = Free(Path.GetFileName(path));
        try
        {
            Directory.CreateDirectory(_folder);
            File.Move(path, kept);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(Directory.Exists(_folder) ? kept : _folder, e);
        }
    }

    // The name itself, or the first that is free with a number behind it.
    private string Free(string name)
    {
        var path = Path.Combine(_folder, name);
        for (var n = 2; File.Exists(path); n++)
        {
            path = Path.Combine(_folder, FormattableString.Invariant($"{Path.GetFileNameWithoutExtension(name)}_{n}{Path.GetExtension(name)}"));
        }

        return path;
    }

    // A print that lost its record was saved by another program.
    private static bool IsMadeAlike(string path, PrintPart now)
    {
        try
        {
            return PrintPart.Read(path) is not { } old || old.ToChunk().Data.Span.SequenceEqual(now.ToChunk().Data.Span);
        }
        catch (Exception e) when (e is TicketException or AudioFileException)
        {
            return false; // a file that cannot be read is no loss
        }
    }
}
