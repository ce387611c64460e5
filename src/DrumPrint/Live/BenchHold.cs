using DrumPrint.Audio;

namespace DrumPrint.Live;

/// <summary>Holds a chain for one bench at a time: a file beside it that is open to one process alone, and goes with it.</summary>
public sealed class BenchHold : IDisposable
{
    private readonly FileStream _file;

    /// <param name="chainPath">The chain file.</param>
    /// <exception cref="UsageException">Another bench has it.</exception>
    /// <exception cref="AudioFileException">The folder cannot be written to.</exception>
    public BenchHold(string chainPath)
    {
        var path = Path.Combine(Path.GetDirectoryName(chainPath) ?? "", "." + Path.GetFileName(chainPath) + ".bench.lock");
        if (new FileInfo(path).LinkTarget is not null)
        {
            throw new AudioFileException(path, "this is a link, and a lock is a file of its own. Take it away.");
        }

        try
        {
            _file = new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (Exception e) when (FileReason.IsInUse(e))
        {
            throw new UsageException($"A bench is open on {chainPath} already. Go on in its page, or end it there first.");
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(path, e);
        }
    }

    public void Dispose() => _file.Dispose();
}
