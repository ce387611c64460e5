namespace DrumPrint.Files;

/// <summary>A set of files that could not take its names.</summary>
/// <param name="path">What could not be written.</param>
/// <param name="moved">Names that had changed before that, in order.</param>
/// <param name="isUndone">Whether all of it was undone; otherwise the journal is still there, and the next run goes by it.</param>
/// <param name="cause">What the system said.</param>
internal sealed class UnpublishedSetException(string path, IReadOnlyList<string> moved, bool isUndone, Exception cause) : Exception(path, cause)
{
    public string Path { get; } = path;

    public IReadOnlyList<string> Moved { get; } = moved;

    public bool IsUndone { get; } = isUndone;
}
