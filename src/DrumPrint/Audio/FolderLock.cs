using DrumPrint.Files;

namespace DrumPrint.Audio;

/// <summary>Lets one run at a time write to a folder, so that a set of files is of one run.</summary>
/// <remarks>A lock file that is open to one process alone. It goes with the run. Should the run be killed, the system lets go of
/// it.</remarks>
/// <param name="steps">Does it; null for the plain one.</param>
internal sealed class FolderLock(FileSteps? steps = null) : IDisposable
{
    private const string FileName = ".drumprint.lock";

    private readonly FileSteps _steps = steps ?? FileSteps.Plain;
    private FileStream? _file;

    /// <summary>Takes the folder, unless this run has it already, and clears away what a killed run left half-written.</summary>
    /// <param name="folder">A folder that is there.</param>
    /// <param name="run">What such a run is called.</param>
    /// <param name="elsewhere">How to write elsewhere instead.</param>
    /// <exception cref="AudioFileException">Another run has it, or it cannot be written to.</exception>
    public void Take(string folder, string run = "print", string elsewhere = "print to another folder with --out")
    {
        if (_file is not null)
        {
            return;
        }

        var path = Path.Combine(folder, FileName);
        if (new FileInfo(path).LinkTarget is not null)
        {
            throw new AudioFileException(path, $"this is a link, and a lock is a file of its own. Take it away, or {elsewhere}.");
        }

        try
        {
            _file = _steps.Do("lock the folder", () => new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose));
        }
        catch (Exception e) when (FileReason.IsInUse(e))
        {
            throw new AudioFileException(folder, $"another {run} is writing to this folder. Wait until it is done, or {elsewhere}.", e);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(path, e);
        }

        Leftovers.Clear(folder, _steps);
    }

    public void Dispose()
    {
        _file?.Dispose();
        _file = null;
    }
}
