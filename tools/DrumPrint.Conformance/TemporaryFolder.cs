namespace DrumPrint.Conformance;

/// <summary>A folder that is gone afterwards.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-");

    public string Path => _folder.FullName;

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => _folder.Delete(recursive: true);
}
