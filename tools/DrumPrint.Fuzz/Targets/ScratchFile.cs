using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Fuzz.Targets;

/// <summary>One file that is filled anew for every input; it stays open, for opening costs more than writing.</summary>
internal sealed class ScratchFile(string path) : IDisposable
{
    private readonly SafeFileHandle _handle = File.OpenHandle(path, FileMode.Create, FileAccess.Write, FileShare.ReadWrite);

    public string Path { get; } = path;

    public void Put(ReadOnlySpan<byte> bytes)
    {
        RandomAccess.SetLength(_handle, bytes.Length);
        RandomAccess.Write(_handle, bytes, 0);
    }

    public void Dispose() => _handle.Dispose();
}
