using DrumPrint.Cli.Output;
using DrumPrint.Printing;

namespace DrumPrint.Cli.Commands;

/// <summary>Says of what a command reads that it is no whole set.</summary>
internal static class UnfinishedSets
{
    /// <summary>Tells of them on standard error, then does the rest.</summary>
    /// <param name="targets">What the command was given.</param>
    /// <param name="rest">The rest; gives the exit code.</param>
    /// <returns>That exit code, or that there is something to look at.</returns>
    public static int Tell(IEnumerable<string> targets, Func<int> rest)
    {
        var notes = targets.SelectMany(UnfinishedSet.Notes).Distinct(StringComparer.Ordinal).ToList();
        notes.ForEach(Terminal.Say);
        var code = rest();
        return code == ExitCode.Done && notes.Count > 0 ? ExitCode.Findings : code;
    }
}
