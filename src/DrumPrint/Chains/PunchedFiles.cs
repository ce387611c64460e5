namespace DrumPrint.Chains;

/// <summary>The files of a recording that was punched in, in the order in which the chain names them.</summary>
/// <param name="files">Paths relative to the chain file; none for a track of one file.</param>
public sealed class PunchedFiles(IReadOnlyList<string> files) : IEquatable<PunchedFiles>
{
    /// <summary>A track of one file.</summary>
    public static PunchedFiles None { get; } = new([]);

    /// <summary>Paths relative to the chain file.</summary>
    public IReadOnlyList<string> Files { get; } = files;

    /// <summary>Whether there are any.</summary>
    public bool Any => Files.Count > 0;

    /// <summary>Whether both name the same files in one order.</summary>
    public bool Equals(PunchedFiles? other) => other is not null && Files.SequenceEqual(other.Files, StringComparer.Ordinal);

    public override bool Equals(object? obj) => Equals(obj as PunchedFiles);

    public override int GetHashCode() => Files.Aggregate(Files.Count, (hash, file) => HashCode.Combine(hash, StringComparer.Ordinal.GetHashCode(file)));

    public override string ToString() => string.Join(", ", Files);
}
