using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Printing;

/// <summary>Tells of folders that hold no whole set: a print was stopped while its files took their names, or files are gone.</summary>
public static class UnfinishedSet
{
    // What ends so lies beside a delivery, which says by itself what belongs to it: it may be a part of a set on purpose.
    private const string ManifestEnd = ".delivery.json";

    /// <summary>The sentences about what a command was given; none when it holds no such folder.</summary>
    /// <param name="target">A folder of prints, a session folder, a ticket, or another file.</param>
    public static IReadOnlyList<string> Notes(string target)
    {
        ArgumentNullException.ThrowIfNull(target);
        var isFolder = Directory.Exists(target);
        string[] folders = isFolder ? [target, Path.Combine(target, PrintFileName.Folder)] : [Path.GetDirectoryName(Path.GetFullPath(target)) ?? target];
        if (folders.FirstOrDefault(SetJournal.IsIn) is { } folder)
        {
            return [$"{folder} holds no whole set: the last print to it was stopped while its files took their names, so they may be of two prints. Print again to finish it."];
        }

        var tickets = isFolder ? folders.Where(Directory.Exists).SelectMany(TicketFiles.In)
            : target.EndsWith(TicketFiles.End, StringComparison.OrdinalIgnoreCase) && File.Exists(target) ? [target]
            : [];
        return [.. tickets.Select(t => Gone(t, isFolder)).OfType<string>()];
    }

    /// <summary>The prints of a ticket that are not beside it, by their file names.</summary>
    internal static IReadOnlyList<string> Missing(string folder, Ticket ticket) =>
        [.. ticket.Prints.Select(p => p.FileName).Where(n => !File.Exists(Path.Combine(folder, n)))];

    // A ticket that lies by itself was put there as one, and is no set.
    private static string? Gone(string path, bool alone)
    {
        var folder = Path.GetDirectoryName(path) is { Length: > 0 } named ? named : ".";
        Ticket ticket;
        try
        {
            ticket = Ticket.Read(path);
        }
        catch (Exception e) when (e is TicketException or UnreadableFileException)
        {
            return null; // the command itself says what is wrong with it
        }

        return Missing(folder, ticket) is { Count: > 0 } missing && (alone || missing.Count < ticket.Prints.Count) && !IsDelivery(folder)
            ? $"{folder} holds no whole set: {Path.GetFileName(path)} names {Words.Count(missing.Count, "print")} that {(missing.Count == 1 ? "is" : "are")} not there, {Show.Some(missing)}. Print again to have {(missing.Count == 1 ? "it" : "them")} back."
            : null;
    }

    private static bool IsDelivery(string folder) => Directory.EnumerateFiles(folder, "*" + ManifestEnd).Any();
}
