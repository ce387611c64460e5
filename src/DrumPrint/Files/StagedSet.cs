namespace DrumPrint.Files;

/// <summary>Files in the making that take their names in one step: all of them, or none.</summary>
/// <remarks>
/// The new files lie in the folder already, whole and on the disk. A journal says what is to be renamed; from there on a later run can
/// finish or undo it. First every old file makes way, then every new one takes its name, then the journal goes. Each of these is on the
/// disk before the next begins. What fails on the way is undone at once.
/// </remarks>
/// <param name="folder">The folder of the set.</param>
/// <param name="journal">The set. The names come in this order, so what vouches for the others stands last.</param>
/// <param name="seal">Vouches for the journal.</param>
/// <param name="steps">Does it.</param>
internal sealed class StagedSet(string folder, SetJournal journal, JournalSeal seal, FileSteps steps)
{
    private readonly Stack<(string From, string To)> _done = new();

    private string Kept => Path.Combine(folder, journal.KeptFolder);

    /// <summary>Gives the new files their names.</summary>
    /// <exception cref="UnpublishedSetException">It failed; the exception tells what became of the folder.</exception>
    public void Publish()
    {
        var at = folder;
        try
        {
            if (journal.Entries.Any(e => e.KeptAs is not null))
            {
                at = Kept;
                KeptFolder.Make(folder, journal.KeptFolder, steps);
            }

            at = SetJournal.PathIn(folder);
            steps.FlushFolder(folder);
            steps.Do("write the journal", () => journal.Write(folder, seal, steps));
            foreach (var entry in journal.Entries.Reverse().Where(e => e.OldSha256 is not null))
            {
                at = PathOf(entry.Name);
                Move(at, OldPath(folder, journal, entry));
            }

            foreach (var entry in journal.Entries.Where(e => e.Staged is not null))
            {
                at = PathOf(entry.Name);
                Move(PathOf(entry.Staged!), at);
            }

            at = SetJournal.PathIn(folder);
            Flush();
            steps.Delete(SetJournal.PathIn(folder));
            steps.FlushFolder(folder);
        }
        catch (Exception e) when (FileErrors.Are(e))
        {
            throw Undone(at, e);
        }

        foreach (var entry in journal.Entries.Where(e => e.Before is not null))
        {
            steps.TryDelete(PathOf(entry.Before!));
        }
    }

    /// <summary>Where the old file of an entry is while the set takes its names.</summary>
    public static string OldPath(string folder, SetJournal journal, SetEntry entry) =>
        entry.Before is { } before ? Path.Combine(folder, before) : Path.Combine(folder, journal.KeptFolder, entry.KeptAs!);

    private void Move(string from, string to)
    {
        steps.Move(from, to);
        _done.Push((from, to));
    }

    private void Flush()
    {
        if (Directory.Exists(Kept))
        {
            steps.FlushFolder(Kept);
        }

        steps.FlushFolder(folder);
    }

    // The last step may have failed after all is in place; then the old files are still there to go back to.
    private UnpublishedSetException Undone(string at, Exception cause)
    {
        var names = journal.Entries.Select(e => e.Name).ToHashSet(StringComparer.Ordinal);
        var moved = _done.SelectMany(d => new[] { Path.GetFileName(d.From), Path.GetFileName(d.To) }).Where(names.Contains).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToList();
        try
        {
            while (_done.TryPeek(out var step))
            {
                steps.Move(step.To, step.From);
                _done.Pop();
            }

            if (SetJournal.IsIn(folder))
            {
                steps.Delete(SetJournal.PathIn(folder));
            }

            steps.FlushFolder(folder);
            return new UnpublishedSetException(at, moved, isUndone: true, cause);
        }
        catch (Exception e) when (FileErrors.Are(e))
        {
            return new UnpublishedSetException(at, moved, isUndone: false, cause);
        }
    }

    private string PathOf(string name) => Path.Combine(folder, name);
}
