namespace DrumPrint.Session;

/// <summary>Where a run keeps what later runs need not render again.</summary>
/// <param name="Folder">The folder; made when it is not there.</param>
public sealed record StoreOptions(string Folder)
{
    /// <summary>Most a store holds unless told otherwise.</summary>
    public const long DefaultCapBytes = 4L << 30;

    private const string FolderName = ".drumprint";

    /// <summary>Most it may hold; the least recently used goes first.</summary>
    public long CapBytes { get; init; } = DefaultCapBytes;

    /// <summary>Whether everything is rendered again, and the store filled from that.</summary>
    public bool Anew { get; init; }

    /// <summary>The store beside a chain file.</summary>
    public static StoreOptions Beside(string chainPath) => new(Path.Combine(Path.GetDirectoryName(chainPath) ?? "", FolderName));
}
