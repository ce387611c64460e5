using DrumPrint.Printing.Runs;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>Findings that an earlier run has told already and that still stand.</summary>
/// <param name="Here">Those of this run that the ticket in the folder holds too.</param>
/// <param name="Elsewhere">Those of prints that this run leaves as they are, by that ticket.</param>
internal sealed record StandingFindings(IReadOnlyList<string> Here, IReadOnlyList<string> Elsewhere)
{
    /// <summary>Finds them, before the ticket is replaced or ends.</summary>
    /// <param name="setup">The run.</param>
    /// <param name="account">What it has found.</param>
    /// <param name="ticket">That of the folder; null without one.</param>
    public static StandingFindings Of(RunSetup setup, RunAccount account, Ticket? ticket) => ticket is null || !setup.Run.EndsTicket
        ? new([], [])
        : new([.. account.Findings.Where(ticket.Findings.Contains)], [.. RunFindings.OfPrints(setup.Encoding, Others(setup, ticket))]);

    // That the ticket tells of, lie there, and are still asked for.
    private static List<PrintPeaks> Others(RunSetup setup, Ticket ticket)
    {
        var others = setup.Selection.All.Where(t => !setup.Selection.Chosen.Contains(t)).Select(setup.NameOf).ToHashSet(StringComparer.Ordinal);
        return [.. ticket.Prints.Where(p => others.Contains(p.FileName) && File.Exists(Path.Combine(setup.Folder, p.FileName))).Select(PrintPeaks.Of)];
    }
}
