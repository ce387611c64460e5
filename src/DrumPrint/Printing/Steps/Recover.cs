using DrumPrint.Audio;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Printing.Runs;

namespace DrumPrint.Printing.Steps;

/// <summary>Before the first step: finishes or undoes what a run left that was stopped while its files took their names.</summary>
internal static class Recover
{
    /// <summary>Does it, if there is anything.</summary>
    /// <returns>What is to be told of it, in sentences.</returns>
    /// <exception cref="AudioFileException">It cannot be done, or what lies there is no journal of ours.</exception>
    public static IReadOnlyList<string> Folder(RunSetup setup)
    {
        if (!SetJournal.IsIn(setup.Folder))
        {
            ClearAway(setup);
            return [];
        }

        // A run that is not over has the lock.
        setup.Lock.Take(setup.Folder);
        var path = SetJournal.PathIn(setup.Folder);
        try
        {
            if (SetJournal.Read(setup.Folder, JournalSeal.OfUser(setup.Steps)) is not { } journal)
            {
                throw new AudioFileException(path, "this is no list of files that your DrumPrint wrote on this machine, and nothing was done by it. Take it away, and print again.");
            }

            var recovery = new SetRecovery(setup.Folder, journal, setup.Steps);
            var isNew = recovery.Run();
            Leftovers.Clear(setup.Folder, setup.Steps);
            return
            [
                $"The last print to {setup.Folder} was stopped while its files took their names. That was {(isNew ? "finished" : "undone")} first.",
                .. recovery.Kept.Count == 0 ? Array.Empty<string>() : [$"Files that were saved there since are kept: {Show.List([.. recovery.Kept])}."],
            ];
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(path, e);
        }
    }

    // From here on nobody else changes what lies there: what this run leaves as it is, it has seen. What a killed run left goes too.
    private static void ClearAway(RunSetup setup)
    {
        try
        {
            if (Directory.Exists(setup.Folder))
            {
                setup.Lock.Take(setup.Folder);
            }
        }
        catch (AudioFileException e) when (e.InnerException is null || !FileReason.IsInUse(e.InnerException))
        {
            // A folder that may only be read can still hold all that is asked for. Whoever writes there says what is wrong.
        }
    }
}
