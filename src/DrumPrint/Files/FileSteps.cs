using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Files;

/// <summary>Changes files and folders, one step at a time: the one place where this engine writes to a disk.</summary>
/// <remarks>Whatever writes is given one. The plain one does as it is told; tests give one of their own, in which a step goes wrong.</remarks>
/// <param name="before">Told what is about to be done, from any thread; null when nobody asks. What it throws happens in place of the step.</param>
internal class FileSteps(Action<string>? before = null)
{
    /// <summary>Does what it is told.</summary>
    public static FileSteps Plain { get; } = new();

    /// <summary>Does one thing.</summary>
    public void Do(string what, Action step)
    {
        Before(what);
        step();
    }

    public T Do<T>(string what, Func<T> step)
    {
        Before(what);
        return step();
    }

    /// <summary>Gives a file another name that nothing has.</summary>
    public void Move(string from, string to) => Move(from, to, replaces: false);

    /// <summary>Gives a file another name.</summary>
    public void Move(string from, string to, bool replaces) => Do($"move {Path.GetFileName(from)} to {Path.GetFileName(to)}", () => File.Move(from, to, replaces));

    public void Delete(string path) => Do($"delete {Path.GetFileName(path)}", () => File.Delete(path));

    /// <summary>Makes a folder, unless it is there.</summary>
    public void MakeFolder(string path) => Do($"make the folder {Path.GetFileName(path)}", () => Directory.CreateDirectory(path));

    /// <summary>Deletes a file that nothing depends on any more.</summary>
    public void TryDelete(string path) => Try(() => Delete(path));

    /// <summary>Deletes a folder of our own naming, with all that is in it.</summary>
    public void TryDeleteFolder(string path) => Try(() => Do($"delete the folder {Path.GetFileName(path)}", () => Directory.Delete(path, recursive: true)));

    /// <summary>Puts bytes into a file.</summary>
    public virtual void Write(SafeFileHandle file, ReadOnlySpan<byte> bytes, long at)
    {
        Before("write bytes");
        try
        {
            RandomAccess.Write(file, bytes, at);
        }
        catch (ArgumentOutOfRangeException e)
        {
            throw RefusedLength.Of(e);
        }
    }

    /// <summary>Brings a file to the disk.</summary>
    public virtual void Flush(SafeFileHandle file)
    {
        Before("flush a file");
        RandomAccess.FlushToDisk(file);
    }

    /// <summary>Brings the names in a folder to the disk.</summary>
    public virtual void FlushFolder(string folder)
    {
        Before($"flush {Path.GetFileName(folder)}");
        FolderEntries.Flush(folder);
    }

    /// <summary>Told of each step.</summary>
    protected virtual void Before(string what) => before?.Invoke(what);

    private static void Try(Action step)
    {
        try
        {
            step();
        }
        catch (Exception e) when (FileErrors.Are(e))
        {
            // It goes by a temporary name, and a later run clears it away.
        }
    }
}
