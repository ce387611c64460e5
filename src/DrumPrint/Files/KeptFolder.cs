namespace DrumPrint.Files;

/// <summary>The folder for files that make way for others and must not be lost.</summary>
internal static class KeptFolder
{
    /// <summary>Makes it, unless it is there.</summary>
    /// <param name="folder">The folder it lies in.</param>
    /// <param name="name">Its name.</param>
    /// <param name="steps">Does it.</param>
    /// <exception cref="IOException">It cannot be made, or leads elsewhere.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be made.</exception>
    public static void Make(string folder, string name, FileSteps steps)
    {
        var path = Path.Combine(folder, name);
        if (new DirectoryInfo(path).LinkTarget is not null)
        {
            throw new IrregularFileException("it is a link, not a folder");
        }

        steps.MakeFolder(path);
    }
}
