using System.Globalization;
using System.Text.RegularExpressions;
using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Comparing.Targets;

/// <summary>The prints of a folder, by number and name.</summary>
internal sealed partial class PrintFolder
{
    private PrintFolder(string name, IReadOnlyList<FolderPrint> prints, TempoMap? tempo, IReadOnlyList<string> notes)
    {
        Name = name;
        Prints = prints;
        Tempo = tempo;
        Notes = notes;
    }

    /// <summary>Title of the song, or the folder's name.</summary>
    public string Name { get; }

    public IReadOnlyList<FolderPrint> Prints { get; }

    public TempoMap? Tempo { get; }

    /// <summary>What was left aside, in sentences.</summary>
    public IReadOnlyList<string> Notes { get; }

    /// <summary>Reads a folder of prints, a session folder that holds <c>prints</c>, or a ticket beside its prints.</summary>
    /// <exception cref="UsageException">It holds no print, or those of several deliveries.</exception>
    /// <exception cref="TicketException">The ticket that was named cannot be read.</exception>
    public static PrintFolder Read(string path)
    {
        if (!Directory.Exists(path))
        {
            return Read(path, Path.GetDirectoryName(Path.GetFullPath(path))!, Ticket.Read(path), []);
        }

        var folder = path;
        if (Directory.GetFiles(folder, "*.wav").Length == 0 && Directory.Exists(Path.Combine(folder, "prints")))
        {
            folder = Path.Combine(folder, "prints");
        }

        var file = TicketFiles.OnlyOneIn(folder);
        try
        {
            return Read(path, folder, file is null ? null : Ticket.Read(file), []);
        }
        catch (Exception e) when (e is TicketException or UnreadableFileException)
        {
            return Read(path, folder, null, [$"{file} cannot be read; its prints were taken by their file names."]);
        }
    }

    private static PrintFolder Read(string path, string folder, Ticket? ticket, List<string> notes)
    {
        var reach = new SessionReach(ReadPolicy.Default, folder);
        var all = Directory.GetFiles(folder, "*.wav").Order(StringComparer.Ordinal).ToList();
        var files = all.FindAll(f => reach.Outside(Path.GetFileName(f)) is null);
        Note(notes, all.Except(files).Select(f => Path.GetFileName(f)), folder, "left aside: a link leads out of the folder at");
        var prints = ticket is null ? ByNames(folder, files, notes) : OfTicket(folder, files, ticket, notes);
        if (prints.Count == 0)
        {
            throw new UsageException($"{path} holds no prints. Give a folder of files such as 01_Kick_MySong_v1.wav, or the ticket beside them.");
        }

        var song = ticket?.Chain.Song;
        return new PrintFolder(
            song?.Title ?? Path.GetFileName(Path.GetFullPath(path).TrimEnd(Path.DirectorySeparatorChar)),
            [.. prints.OrderBy(p => p.Number).ThenBy(p => p.Name, StringComparer.Ordinal)],
            song?.Tempo,
            notes);
    }

    private static List<FolderPrint> OfTicket(string folder, List<string> files, Ticket ticket, List<string> notes)
    {
        var there = ticket.Prints.Where(p => files.Contains(Path.Combine(folder, p.FileName))).ToList();
        Note(notes, ticket.Prints.Except(there).Select(p => p.FileName), folder, "missing: the ticket names");
        var known = ticket.Prints.Select(p => p.FileName).ToHashSet(StringComparer.Ordinal);

        // Another delivery in the same folder is no oddity; whoever names one of two tickets knows of the other.
        var others = TicketFiles.ReadableIn(folder).SelectMany(t => t.Prints).Select(p => p.FileName).ToHashSet(StringComparer.Ordinal);
        var deliveries = known.Concat(others).Select(WithoutVersion).ToHashSet(StringComparer.Ordinal);
        Note(notes, files.Select(f => Path.GetFileName(f)).Where(f => !known.Contains(f) && !others.Contains(f) && !deliveries.Contains(WithoutVersion(f))), folder, "left aside: the ticket does not name");
        return [.. there.Select(p => new FolderPrint(p.Number, p.Name, Path.Combine(folder, p.FileName), p.Kind))];
    }

    private static List<FolderPrint> ByNames(string folder, List<string> files, List<string> notes)
    {
        var prints = files.Select(ByName).OfType<FolderPrint>().ToList();
        if (prints.GroupBy(p => p.Title.ToUpperInvariant()).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new UsageException($"{folder} holds several prints {twice.First().Title} and no ticket: {string.Join(", ", twice.Select(p => Path.GetFileName(p.Path)))}. Put each delivery in a folder of its own, or name two files.");
        }

        Note(notes, files.Where(f => ByName(f) is null).Select(f => Path.GetFileName(f)), folder, "left aside: no number as in 01_Kick_MySong_v1.wav begins the name of");
        return prints;
    }

    // One line, however many there are.
    private static void Note(List<string> notes, IEnumerable<string> files, string folder, string what)
    {
        var names = files.ToList();
        if (names.Count > 0)
        {
            notes.Add(FormattableString.Invariant($"{folder}: {names.Count} {(names.Count == 1 ? "sound file" : "sound files")} {what} {names[0]}{(names.Count > 1 ? " and others" : "")}."));
        }
    }

    private static string WithoutVersion(string file) => Version().Replace(file, "");

    private static FolderPrint? ByName(string file)
    {
        var match = NameParts().Match(Path.GetFileName(file));
        if (!match.Success)
        {
            return null;
        }

        var name = match.Groups["name"].Value;
        PrintKind? kind = name.Contains("RoughPreBus", StringComparison.OrdinalIgnoreCase) ? PrintKind.Rough
            : name.Contains("RoughWithBus", StringComparison.OrdinalIgnoreCase) ? PrintKind.RoughWithBus
            : string.Equals(name, "Click", StringComparison.OrdinalIgnoreCase) ? PrintKind.Click
            : null;
        return new FolderPrint(int.Parse(match.Groups["number"].Value, CultureInfo.InvariantCulture), name, file, kind);
    }

    [GeneratedRegex(@"^(?<number>\d{1,3})[ _-]+(?<name>.+?)(_[^_]+_v\d+)?\.wav$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex NameParts();

    [GeneratedRegex(@"_v\d+\.wav$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Version();
}

/// <summary>One print of a folder.</summary>
/// <param name="Number">First part of the file name.</param>
/// <param name="Name">Second part of the file name.</param>
/// <param name="Path">The file.</param>
/// <param name="Kind">What it is; null when only its name is known.</param>
internal sealed record FolderPrint(int Number, string Name, string Path, PrintKind? Kind)
{
    /// <summary>Number and name, as people read them.</summary>
    public string Title => FormattableString.Invariant($"{Number:00} {Name}");
}
