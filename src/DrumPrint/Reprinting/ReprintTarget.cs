using DrumPrint.Audio;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Reprinting;

/// <summary>Finds out what a ticket, a print or a folder of prints asks to be made again.</summary>
internal sealed class ReprintTarget
{
    private const string TicketEnd = ".ticket.json";

    private readonly List<ReprintJob> _jobs = [];
    private readonly List<Reprinted> _hopeless = [];

    private ReprintTarget(string folder) => Folder = folder;

    /// <summary>Folder that holds it.</summary>
    public string Folder { get; }

    public IReadOnlyList<ReprintJob> Jobs => _jobs;

    /// <summary>Prints that this version cannot even try to make again, each with its cause.</summary>
    public IReadOnlyList<Reprinted> Hopeless => _hopeless;

    /// <summary>Reads a target.</summary>
    /// <exception cref="UsageException">There is nothing in it to make again.</exception>
    public static ReprintTarget Read(string path)
    {
        var full = Path.GetFullPath(path);
        if (Directory.Exists(full))
        {
            var folder = new ReprintTarget(full);
            folder.AddFolder(path);
            return folder;
        }

        var target = new ReprintTarget(Path.GetDirectoryName(full)!);
        if (full.Contains(".chain.json", StringComparison.OrdinalIgnoreCase) && File.Exists(full))
        {
            throw NothingIn(path, "is a chain file, which says how to print but not what came out. Give a ticket, a print or a folder of prints; to print the chain: drumprint print");
        }

        if (full.EndsWith(".json", StringComparison.OrdinalIgnoreCase))
        {
            target.AddTicket(full, Ticket.Read(full));
        }
        else if (PrintPart.Read(full) is { } part)
        {
            target.AddPrint(full, part, target.Tickets().Whole);
        }
        else
        {
            throw NothingIn(path, "carries no word of how it was made: an excerpt does not, nor does what another program saved. An excerpt is printed again with --from and --to; for a print that was saved by another program give the ticket");
        }

        return target;
    }

    private void AddFolder(string path)
    {
        var (tickets, broken) = Tickets();
        _hopeless.AddRange(broken);
        foreach (var (file, ticket) in tickets)
        {
            AddTicket(file, ticket);
        }

        var known = _jobs.SelectMany(j => j.Prints).Select(p => p.Path).ToHashSet();
        foreach (var file in Directory.GetFiles(Folder, "*.wav").Where(f => !known.Contains(f)).Order(StringComparer.Ordinal))
        {
            try
            {
                if (PrintPart.Read(file) is { } part)
                {
                    AddPrint(file, part, tickets);
                }
            }
            catch (TicketException e)
            {
                _hopeless.Add(new Reprinted(Path.GetFileName(file), ReprintOutcome.Differs) { Cause = e.Message });
            }
            catch (AudioFileException)
            {
                // Whatever else lies in the folder is none of our business.
            }
        }

        if (_jobs.Count + _hopeless.Count == 0)
        {
            throw NothingIn(path, "holds no ticket and no print that says how it was made");
        }
    }

    private void AddTicket(string path, Ticket ticket) =>
        _jobs.Add(ReprintJob.Of(path, ticket, [.. ticket.Prints.Select(p => Old(Path.Combine(Folder, p.FileName), p, ticket))]));

    private void AddPrint(string path, PrintPart part, List<(string Path, Ticket Ticket)> tickets)
    {
        var name = Path.GetFileName(path);
        var (file, ticket) = tickets.FirstOrDefault(t => t.Ticket.Prints.Any(p => p.FileName == name && p.Number == part.Number));
        var recorded = ticket?.Prints.First(p => p.FileName == name);
        var target = ticket is null ? null : PrintSelection.Of(ticket.Chain, []).All.FirstOrDefault(t => t.Number == part.Number);
        var witness = target is null ? null : new Witness(ChainPart.Of(ticket!.Chain, target), $"in {Path.GetFileName(file)}");
        _jobs.Add(ReprintJob.Of(path, part, new OldPrint(part.Number, name, path, recorded, witness, part.Form, part.Engine)));
    }

    // The tickets of the folder, and those that cannot be read.
    private (List<(string Path, Ticket Ticket)> Whole, List<Reprinted> Broken) Tickets()
    {
        var tickets = new List<(string, Ticket)>();
        var broken = new List<Reprinted>();
        foreach (var file in Directory.GetFiles(Folder, "*" + TicketEnd).Order(StringComparer.Ordinal))
        {
            try
            {
                tickets.Add((file, Ticket.Read(file)));
            }
            catch (Exception e) when (e is TicketException or Chains.UnreadableFileException)
            {
                broken.Add(new Reprinted(Path.GetFileName(file), ReprintOutcome.Differs) { Cause = e.Message });
            }
        }

        return (tickets, broken);
    }

    private static OldPrint Old(string path, RecordedPrint recorded, Ticket ticket)
    {
        if (!File.Exists(path))
        {
            return new OldPrint(recorded.Number, recorded.FileName, null, recorded, null, ticket.PartForm, ticket.Engine);
        }

        PrintPart? part = null;
        try
        {
            part = PrintPart.Read(path);
        }
        catch (Exception e) when (e is TicketException or AudioFileException)
        {
            // The ticket says all that is needed; a damaged print shows when it is compared.
        }

        return new OldPrint(recorded.Number, recorded.FileName, path, recorded, part is null ? null : new Witness(part.Chain, "in the print"), part?.Form ?? ticket.PartForm, part?.Engine ?? ticket.Engine);
    }

    private static UsageException NothingIn(string path, string why) => new($"{path} {why}.");
}
