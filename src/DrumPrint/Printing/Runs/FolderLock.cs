using DrumPrint.Audio;
using DrumPrint.Session;

namespace DrumPrint.Printing.Runs;

/// <summary>Lets one run at a time write to a folder of prints, so that a set and its ticket are of one run.</summary>
/// <remarks>A lock file that is open to one process alone; it goes with the run, and the system lets go of it should the run be killed.</remarks>
internal sealed class FolderLock : IDisposable
{
    private const string FileName = ".drumprint.lock";

    private FileStream? _file;

    /// <summary>Takes the folder, unless this run has it already, and clears away what a killed run left half-written.</summary>
    /// <param name="folder">A folder that is there.</param>
    /// <param name="songCode">The song that is printed.</param>
    /// <exception cref="AudioFileException">Another run has it, or it cannot be written to.</exception>
    public void Take(string folder, string songCode)
    {
        if (_file is not null)
        {
            return;
        }

        var path = Path.Combine(folder, FileName);
        try
        {
            _file = new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (Exception e) when (FileReason.IsInUse(e))
        {
            throw new AudioFileException(folder, "another print is writing to this folder. Wait until it is done, or print to another folder with --out.", e);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(path, e);
        }

        foreach (var left in Directory.EnumerateFiles(folder, ".*" + WaveWriter.PartialEnd).Where(f => IsOfPrint(f, songCode)).ToList())
        {
            File.Delete(left);
        }
    }

    public void Dispose()
    {
        _file?.Dispose();
        _file = null;
    }

    private static bool IsOfPrint(string path, string songCode) => VersionInName.OfPrint(Path.GetFileName(path)[1..^WaveWriter.PartialEnd.Length], songCode) is not null;
}
