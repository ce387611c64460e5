using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Writing;
using DrumPrint.Diff;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Printing;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>The prints that a ticket vouches for, of a chain as it is now.</summary>
/// <param name="Folder">Where they lie.</param>
/// <param name="Ticket">Their ticket.</param>
/// <param name="TicketText">Its bytes.</param>
internal sealed record ProvedPrints(string Folder, Ticket Ticket, byte[] TicketText)
{
    private const long MostTicketBytes = 64 << 20;

    /// <summary>Finds the ticket of a chain's prints and holds it against the chain. The files themselves are proved as they are copied.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="folder">Where its prints lie; null for the folder beside it.</param>
    /// <exception cref="UsageException">There is no such ticket, or it is of another chain; the message says what to do.</exception>
    public static ProvedPrints Find(Chain chain, string? folder)
    {
        folder ??= Path.Combine(chain.Folder, PrintFileName.Folder);
        var path = Path.Combine(folder, Ticket.FileName(chain.Song));
        var again = $"Print first: drumprint print {Quoted(chain.Path)}";
        if (SetJournal.IsIn(folder))
        {
            throw new UsageException($"{folder} holds no whole set: the last print to it was stopped while its files took their names. {again}");
        }

        if (!File.Exists(path))
        {
            throw new UsageException($"{path}: there is no ticket of version {Show.Number(chain.Song.Version)}, so nothing vouches for these prints. {again}");
        }

        var ticket = Ticket.Read(path);
        if (UnfinishedSet.Missing(folder, ticket) is { Count: > 0 } missing)
        {
            throw new UsageException($"{folder} holds no whole set: {Path.GetFileName(path)} names {Words.Count(missing.Count, "print")} that {(missing.Count == 1 ? "is" : "are")} not there, {Show.Some(missing)}. {again}");
        }

        var unlisted = PrintSelection.Of(chain, []).All.Where(t => ticket.Prints.All(p => p.Number != t.Number)).Select(t => FormattableString.Invariant($"{t.Number:00} {t.Name}")).ToList();
        if (unlisted.Count > 0)
        {
            throw new UsageException($"{folder} holds no whole set: the chain asks for {Show.Some(unlisted)}, and {Path.GetFileName(path)} does not know of {(unlisted.Count == 1 ? "it" : "them")}. {again}");
        }

        chain = FoundNumbers.From(chain, ticket.Chain);
        var changes = ticket.ChainSha256 == CanonicalHash.Of(chain) && ticket.TempoSha256 == CanonicalHash.Of(chain.Song.Tempo) ? null : Changes(chain, ticket);
        return changes is null
            ? new ProvedPrints(folder, ticket, RegularFile.ReadAll(path, MostTicketBytes))
            : throw new UsageException($"{folder}: the chain was changed after these prints were made{changes}. A delivery holds what the chain says. {again}");
    }

    /// <summary>Says that a print is not what the ticket vouches for.</summary>
    public UsageException NotProved(RecordedPrint print, Chain chain) =>
        new($"{Path.Combine(Folder, print.FileName)} is not the file that the ticket vouches for: it was edited, or saved by another program. Print again, which puts it aside and makes it as it was: drumprint print {Quoted(chain.Path)}");

    /// <summary>Whether a sound file lies beside the prints under their version that the ticket does not know.</summary>
    public IReadOnlyList<string> Strays(Chain chain)
    {
        var end = FormattableString.Invariant($"_{chain.Song.Code}_v{chain.Song.Version}.wav");
        var known = Ticket.Prints.Select(p => p.FileName).ToHashSet(StringComparer.Ordinal);
        return [.. Directory.EnumerateFiles(Folder, "*.wav").Select(f => Path.GetFileName(f)).Where(n => n.EndsWith(end, StringComparison.Ordinal) && !known.Contains(n)).Order(StringComparer.Ordinal)];
    }

    private static string Changes(Chain chain, Ticket ticket)
    {
        var changes = ChainChanges.Of(Made.Of("ticket", ticket), Made.Of(chain.Path, chain));
        return changes.Count == 0 ? "" : $" ({string.Join("; ", changes.Take(3))}{(changes.Count > 3 ? "; …" : "")})";
    }

    private static string Quoted(string path) => path.Contains(' ', StringComparison.Ordinal) ? $"\"{path}\"" : path;
}
