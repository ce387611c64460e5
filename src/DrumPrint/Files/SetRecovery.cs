using System.Security.Cryptography;

namespace DrumPrint.Files;

/// <summary>Brings a set to its end that a run was stopped in: all new where every new file is still there, else all old.</summary>
/// <remarks>A file may have one of the names and be neither the old nor the new one. Somebody has put it there since, and it is
/// kept.</remarks>
/// <param name="folder">The folder of the set.</param>
/// <param name="journal">What the run left.</param>
/// <param name="steps">Does it.</param>
internal sealed class SetRecovery(string folder, SetJournal journal, FileSteps steps)
{
    private readonly List<string> _kept = [];

    /// <summary>Files that were neither the old nor the new one: where each is kept now.</summary>
    public IReadOnlyList<string> Kept => _kept;

    /// <summary>Finishes the set or undoes it, and takes the journal away.</summary>
    /// <returns>Whether it is the new one.</returns>
    /// <exception cref="IOException">The folder cannot be written to; nothing is lost, and a later run tries again.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be.</exception>
    public bool Run()
    {
        var isNew = journal.Entries.All(e => e.Staged is null || IsThere(e.Name, e.NewSha256!) || IsThere(e.Staged, e.NewSha256!));
        foreach (var entry in journal.Entries.Reverse())
        {
            if (isNew)
            {
                MakeWay(entry, entry.NewSha256);
            }
            else
            {
                GoBack(entry);
            }
        }

        foreach (var entry in journal.Entries.Where(e => isNew && e.Staged is not null && !IsThere(e.Name, e.NewSha256!)))
        {
            steps.Move(PathOf(entry.Staged!), PathOf(entry.Name));
        }

        steps.FlushFolder(folder);
        steps.Delete(SetJournal.PathIn(folder));
        steps.FlushFolder(folder);
        return isNew;
    }

    // Whatever has the name and is not wanted there goes: the old file to its place, somebody's to those that are kept. The new one can
    // be made again.
    private void MakeWay(SetEntry entry, string? wanted)
    {
        var path = PathOf(entry.Name);
        if (!Path.Exists(path))
        {
            return;
        }

        var hash = HashOf(path);
        if (hash is null || (hash != wanted && hash != entry.OldSha256 && hash != entry.NewSha256))
        {
            Keep(path);
        }
        else if (hash == wanted)
        {
            // As it is to be.
        }
        else if (!OwnFile.IsPrintOrTicket(path))
        {
            // A journal may come by mail and name a file by its true hash. What this program did not write stays.
            Keep(path);
        }
        else if (hash == entry.NewSha256)
        {
            steps.Delete(path);
        }
        else if (StagedSet.OldPath(folder, journal, entry) is var old && !Path.Exists(old))
        {
            if (entry.KeptAs is not null)
            {
                KeptFolder.Make(folder, journal.KeptFolder, steps);
            }

            steps.Move(path, old);
        }
        else
        {
            Keep(path);
        }
    }

    private void Keep(string path)
    {
        KeptFolder.Make(folder, journal.KeptFolder, steps);
        var kept = FreeName.In(Path.Combine(folder, journal.KeptFolder), Path.GetFileName(path));
        steps.Move(path, kept);
        _kept.Add(kept);
    }

    private void GoBack(SetEntry entry)
    {
        if (entry.OldSha256 is null)
        {
            MakeWay(entry, null);
            return;
        }

        var old = StagedSet.OldPath(folder, journal, entry);
        if (HashOf(old) == entry.OldSha256 && new DirectoryInfo(Path.GetDirectoryName(old)!).LinkTarget is null && !IsThere(entry.Name, entry.OldSha256))
        {
            MakeWay(entry, entry.OldSha256);
            steps.Move(old, PathOf(entry.Name));
        }
    }

    private bool IsThere(string name, string sha256) => File.Exists(PathOf(name)) && HashOf(PathOf(name)) == sha256;

    // A link is somebody's, whatever it leads to.
    private static string? HashOf(string path)
    {
        if (new FileInfo(path).LinkTarget is not null || !File.Exists(path))
        {
            return null;
        }

        using var handle = RegularFile.Open(path, FileShare.ReadWrite | FileShare.Delete);
        using var stream = new FileStream(handle, FileAccess.Read);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }

    private string PathOf(string name) => Path.Combine(folder, name);
}
