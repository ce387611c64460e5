namespace DrumPrint.Tests.Audio;

/// <summary>A folder of its own for one test, gone afterwards.</summary>
internal sealed class TestFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-");

    public string Path => _folder.FullName;

    public IEnumerable<string> Names => _folder.EnumerateFileSystemInfos().Select(f => f.Name).Order(StringComparer.Ordinal);

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public string Put(string name, byte[] bytes)
    {
        System.IO.File.WriteAllBytes(File(name), bytes);
        return File(name);
    }

    public void Dispose() => _folder.Delete(recursive: true);
}
