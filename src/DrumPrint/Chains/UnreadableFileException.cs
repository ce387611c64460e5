namespace DrumPrint.Chains;

/// <summary>A chain file that is not there or cannot be opened.</summary>
/// <param name="path">The file as the user named it.</param>
/// <param name="problem">What is wrong, in a sentence.</param>
public sealed class UnreadableFileException(string path, string problem) : DrumPrintException($"{path}: {problem}");
