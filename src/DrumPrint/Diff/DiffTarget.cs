using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Files;
using DrumPrint.Tickets;

namespace DrumPrint.Diff;

/// <summary>Reads what a ticket, a chain, a print or a folder says of how prints were made.</summary>
internal static class DiffTarget
{
    private const string ChainMark = ".chain.json";

    /// <summary>One entry; or one for each print of a folder without a ticket.</summary>
    /// <exception cref="UsageException">There is nothing in it to compare.</exception>
    public static IReadOnlyList<Made> Read(string path, ReadPolicy reading)
    {
        if (Directory.Exists(path))
        {
            return Folder(path, reading);
        }

        var name = Path.GetFileName(path);
        if (name.EndsWith(TicketFiles.End, StringComparison.OrdinalIgnoreCase))
        {
            return [Made.Of(path, Ticket.Read(path))];
        }

        if (name.Contains(".json", StringComparison.OrdinalIgnoreCase))
        {
            return [Text(path, reading)];
        }

        return Print(path) is { } print
            ? [print]
            : throw new UsageException($"{path} carries no word of how it was made: an excerpt does not, nor does what another program saved. An excerpt is printed again with --from and --to; for a print that was saved by another program give the ticket.");
    }

    // A ticket under another name is told from a chain by what it holds.
    private static Made Text(string path, ReadPolicy reading)
    {
        try
        {
            return Made.Of(path, ChainReader.ReadSettings(path, reading));
        }
        catch (DrumPrintException chain) when (chain is ChainException or UsageException)
        {
            try
            {
                return Made.Of(path, Ticket.Read(path));
            }
            catch (TicketException)
            {
                throw chain;
            }
        }
    }

    private static IReadOnlyList<Made> Folder(string folder, ReadPolicy reading)
    {
        if (TicketFiles.OnlyOneIn(folder) is { } ticket)
        {
            return [Made.Of(ticket, Ticket.Read(ticket))];
        }

        var prints = Directory.GetFiles(folder, "*.wav").Order(StringComparer.Ordinal).Select(Readable).OfType<Made>().ToList();
        if (prints.Count > 0)
        {
            return prints.Select(p => p.Number).Distinct().Count() == prints.Count
                ? prints
                : throw new UsageException($"{folder} holds several prints of one number and no ticket. Name the print you mean.");
        }

        var chains = Directory.GetFiles(folder, "*" + ChainMark + "*").Order(StringComparer.Ordinal).ToList();
        return chains.Count switch
        {
            1 => [Text(chains[0], reading)],
            0 => throw new UsageException($"{folder} holds no ticket, no chain and no print that says how it was made."),
            _ => throw new UsageException($"{folder} holds several chains: {string.Join(", ", chains.Select(Path.GetFileName))}. Name one of them."),
        };
    }

    // Whatever else lies in a folder is none of our business.
    private static Made? Readable(string path)
    {
        try
        {
            return Print(path);
        }
        catch (Exception e) when (e is AudioFileException or TicketException)
        {
            return null;
        }
    }

    private static Made? Print(string path) => PrintPart.Read(path) is { } part ? Made.Of(path, part, Recorded(path, part.Number)) : null;

    // What a ticket beside a print says came out.
    private static RecordedPrint? Recorded(string path, int number)
    {
        var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        return TicketFiles.ReadableIn(folder).SelectMany(t => t.Prints).FirstOrDefault(p => p.Number == number && p.FileName == Path.GetFileName(path));
    }
}
