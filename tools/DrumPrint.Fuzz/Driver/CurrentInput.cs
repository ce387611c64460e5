using System.IO.MemoryMappedFiles;

namespace DrumPrint.Fuzz.Driver;

/// <summary>The input that is being tried, in a file that outlives the process: a stack that overflows ends it without a word.</summary>
internal sealed class CurrentInput : IDisposable
{
    private readonly MemoryMappedFile _file;
    private readonly MemoryMappedViewAccessor _view;

    /// <param name="path">The file.</param>
    /// <param name="mostBytes">Longest input.</param>
    public CurrentInput(string path, int mostBytes)
    {
        using (var file = new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.ReadWrite))
        {
            file.SetLength(sizeof(int) + mostBytes);
        }

        _file = MemoryMappedFile.CreateFromFile(path, FileMode.Open);
        _view = _file.CreateViewAccessor();
    }

    /// <summary>What an earlier process was trying when it ended; null when it ended well.</summary>
    public byte[]? Left()
    {
        var length = _view.ReadInt32(0);
        if (length <= 0)
        {
            return null;
        }

        var bytes = new byte[length - 1];
        _view.ReadArray(sizeof(int), bytes, 0, bytes.Length);
        return bytes;
    }

    public void Begin(byte[] input)
    {
        _view.WriteArray(sizeof(int), input, 0, input.Length);
        _view.Write(0, input.Length + 1);
    }

    public void End() => _view.Write(0, 0);

    public void Dispose()
    {
        _view.Dispose();
        _file.Dispose();
    }
}
