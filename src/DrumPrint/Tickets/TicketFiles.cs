using DrumPrint.Chains;

namespace DrumPrint.Tickets;

/// <summary>The tickets of a folder.</summary>
internal static class TicketFiles
{
    public const string End = ".ticket.json";

    /// <summary>All of them, in the order of their names.</summary>
    public static IReadOnlyList<string> In(string folder) => [.. Directory.GetFiles(folder, "*" + End).Order(StringComparer.Ordinal)];

    /// <summary>The only one; null for none.</summary>
    /// <exception cref="UsageException">There are several, each of another delivery.</exception>
    public static string? OnlyOneIn(string folder)
    {
        var tickets = In(folder);
        return tickets.Count switch
        {
            0 => null,
            1 => tickets[0],
            _ => throw new UsageException($"{folder} holds several tickets: {string.Join(", ", tickets.Select(Path.GetFileName))}. Name one of them."),
        };
    }

    /// <summary>The tickets of a folder that can be read.</summary>
    public static IEnumerable<Ticket> ReadableIn(string folder)
    {
        foreach (var file in In(folder))
        {
            Ticket ticket;
            try
            {
                ticket = Ticket.Read(file);
            }
            catch (Exception e) when (e is TicketException or UnreadableFileException)
            {
                continue;
            }

            yield return ticket;
        }
    }
}
