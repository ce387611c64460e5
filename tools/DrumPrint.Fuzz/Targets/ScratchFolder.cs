namespace DrumPrint.Fuzz.Targets;

/// <summary>A folder for readers that want files; in memory where the system has such a place.</summary>
internal sealed class ScratchFolder : IDisposable
{
    private const string InMemory = "/dev/shm";

    public ScratchFolder()
    {
        Path = Directory.Exists(InMemory)
            ? Directory.CreateDirectory(System.IO.Path.Combine(InMemory, System.IO.Path.GetRandomFileName())).FullName
            : Directory.CreateTempSubdirectory("drumprint-fuzz-").FullName;
    }

    public string Path { get; }

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
