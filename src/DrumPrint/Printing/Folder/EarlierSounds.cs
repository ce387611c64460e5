using DrumPrint.Diff;
using DrumPrint.Printing.Reports;
using DrumPrint.Printing.Runs;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>Holds new prints against what the tickets in their folder say of those that were there.</summary>
internal static class EarlierSounds
{
    /// <summary>The prints. Each that was rendered comes with two files. One is the earlier file of its number and name,
    /// of this version, else of the one before. The other is the file that holds the same samples.</summary>
    /// <param name="setup">The run.</param>
    /// <param name="tickets">What lies in the folder.</param>
    /// <param name="account">What was made.</param>
    public static IReadOnlyList<PrintedFile> Beside(RunSetup setup, EarlierTickets tickets, RunAccount account)
    {
        var (folder, prints) = (setup.Folder, account.Prints);
        if (prints.All(p => p.IsUnchanged))
        {
            return prints;
        }

        var now = Made.Of(folder, setup.Chain) with { Frames = account.Frames, Prints = [.. prints.Select(RunRecord.Print)] };
        var current = Pairs(tickets.Current, now, folder);
        var before = prints.All(p => p.IsUnchanged || current.ContainsKey(p.Number)) ? [] : Pairs(tickets.Before, now, folder);
        return [.. prints.Select(p => p.IsUnchanged ? p : p with
            {
                Earlier = current.GetValueOrDefault(p.Number) ?? before.GetValueOrDefault(p.Number),
                SameSoundAs = SameSound(tickets.Current, p, folder) ?? SameSound(tickets.Before, p, folder),
            })];
    }

    // The likeliest first. Silence is like any other silence.
    private static string? SameSound(Ticket? ticket, PrintedFile print, string folder) => double.IsNegativeInfinity(print.PeakDbfs)
        ? null
        : ticket?.Prints
            .Where(p => p.AudioSha256 == print.AudioSha256 && File.Exists(Path.Combine(folder, p.FileName)))
            .OrderByDescending(p => p.FileName == print.FileName)
            .ThenByDescending(p => p.Number == print.Number)
            .ThenByDescending(p => p.Name == print.Name)
            .FirstOrDefault()?.FileName;

    // Of prints whose files are still there.
    private static Dictionary<int, EarlierSound> Pairs(Ticket? ticket, Made now, string folder) => ticket is null
        ? []
        : Differ.Measured(Made.Of(folder, ticket), now)
            .Where(m => m.A.Name == m.B.Name && File.Exists(Path.Combine(folder, m.A.FileName)))
            .ToDictionary(m => m.B.Number, m => new EarlierSound(ticket.Chain.Song.Version, m));
}
