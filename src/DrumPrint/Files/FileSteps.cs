namespace DrumPrint.Files;

/// <summary>Changes folders one step at a time, each told before it is done.</summary>
/// <param name="before">Told what is about to be done; null when nobody asks. What it throws happens in place of the step.</param>
internal sealed class FileSteps(Action<string>? before = null)
{
    /// <summary>Does one thing.</summary>
    public void Do(string what, Action step)
    {
        before?.Invoke(what);
        step();
    }

    public T Do<T>(string what, Func<T> step)
    {
        before?.Invoke(what);
        return step();
    }

    /// <summary>Gives a file another name that nothing has.</summary>
    public void Move(string from, string to) => Do($"move {Path.GetFileName(from)} to {Path.GetFileName(to)}", () => File.Move(from, to));

    public void Delete(string path) => Do($"delete {Path.GetFileName(path)}", () => File.Delete(path));

    /// <summary>Deletes a file that nothing depends on any more.</summary>
    public void TryDelete(string path)
    {
        try
        {
            Delete(path);
        }
        catch (Exception e) when (FileErrors.Are(e))
        {
            // It goes by a temporary name, and a later run clears it away.
        }
    }

    /// <summary>Brings the names in a folder to the disk.</summary>
    public void Flush(string folder) => Do($"flush {Path.GetFileName(folder)}", () => FolderEntries.Flush(folder));
}
