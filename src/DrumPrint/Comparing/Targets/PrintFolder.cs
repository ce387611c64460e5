using System.Globalization;
using System.Text.RegularExpressions;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Planning;
using DrumPrint.Prints.Ticketing;

namespace DrumPrint.Comparing.Targets;

/// <summary>The prints of a folder, by number and name.</summary>
internal sealed partial class PrintFolder
{
    public const string TicketEnd = ".ticket.json";

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
    /// <exception cref="UsageException">It holds no print.</exception>
    /// <exception cref="TicketException">The ticket that was named cannot be read.</exception>
    public static PrintFolder Read(string path)
    {
        if (!Directory.Exists(path))
        {
            return Read(path, Path.GetDirectoryName(Path.GetFullPath(path))!, [Ticket.Read(path)], []);
        }

        var folder = path;
        if (Directory.GetFiles(folder, "*.wav").Length == 0 && Directory.Exists(Path.Combine(folder, "prints")))
        {
            folder = Path.Combine(folder, "prints");
        }

        var (tickets, notes) = (new List<Ticket>(), new List<string>());
        foreach (var file in Directory.GetFiles(folder, "*" + TicketEnd).Order(StringComparer.Ordinal))
        {
            try
            {
                tickets.Add(Ticket.Read(file));
            }
            catch (Exception e) when (e is TicketException or UnreadableFileException)
            {
                notes.Add($"{file} cannot be read; its prints were taken by their file names.");
            }
        }

        return Read(path, folder, tickets, notes);
    }

    private static PrintFolder Read(string path, string folder, List<Ticket> tickets, List<string> notes)
    {
        var prints = new List<FolderPrint>();
        foreach (var print in tickets.SelectMany(t => t.Prints))
        {
            var file = Path.Combine(folder, print.FileName);
            if (File.Exists(file))
            {
                prints.Add(new FolderPrint(print.Number, print.Name, file, print.Kind));
            }
            else
            {
                notes.Add($"{file} is named in the ticket but is not there.");
            }
        }

        var known = prints.Select(p => Path.GetFileName(p.Path)).ToHashSet(StringComparer.Ordinal);
        foreach (var file in Directory.GetFiles(folder, "*.wav").Order(StringComparer.Ordinal).Where(f => !known.Contains(Path.GetFileName(f))))
        {
            if (tickets.Count == 0 && ByName(file) is { } print)
            {
                prints.Add(print);
            }
            else
            {
                notes.Add(tickets.Count == 0
                    ? $"{file} was left aside: its name has no number, as in 01_Kick_MySong_v1.wav."
                    : $"{file} was left aside: the ticket does not name it.");
            }
        }

        if (prints.Count == 0)
        {
            throw new UsageException($"{path} holds no prints. Give a folder of files such as 01_Kick_MySong_v1.wav, or the ticket beside them.");
        }

        var song = tickets.Count > 0 ? tickets[0].Chain.Song : null;
        return new PrintFolder(
            song?.Title ?? Path.GetFileName(Path.GetFullPath(path).TrimEnd(Path.DirectorySeparatorChar)),
            [.. prints.OrderBy(p => p.Number).ThenBy(p => p.Name, StringComparer.Ordinal)],
            song?.Tempo,
            notes);
    }

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
