namespace DrumPrint.Audio;

/// <summary>A file that cannot be read or written as needed.</summary>
/// <param name="path">The file as the user named it.</param>
/// <param name="problem">What is wrong and what was expected, one or two sentences.</param>
/// <param name="inner">The cause.</param>
public sealed class AudioFileException(string path, string problem, Exception? inner = null)
    : DrumPrintException($"{path}: {problem}", inner)
{
    public string Path { get; } = path;

    /// <summary>What is wrong and what was expected.</summary>
    public string Problem { get; } = problem;
}
