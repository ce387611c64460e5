namespace DrumPrint.Store;

/// <summary>A kept signal whose bytes are not those that were written.</summary>
internal sealed class DamagedSignalException(string path, string name, Exception? inner = null) : DrumPrintException($"{path} is damaged.", inner)
{
    public string Path { get; } = path;

    /// <summary>The bus it was kept for.</summary>
    public string Name { get; } = name;
}
