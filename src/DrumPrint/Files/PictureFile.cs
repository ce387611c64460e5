namespace DrumPrint.Files;

/// <summary>Writes a drawing.</summary>
public static class PictureFile
{
    /// <summary>Writes a drawing as a whole file; one that is there is replaced.</summary>
    /// <param name="path">Where; it must end in .svg, so that nothing else is replaced by mistake.</param>
    /// <param name="svg">The drawing.</param>
    /// <exception cref="UsageException">The name ends otherwise.</exception>
    public static void Write(string path, string svg)
    {
        if (!path.EndsWith(".svg", StringComparison.OrdinalIgnoreCase))
        {
            throw new UsageException($"{path}: a picture's name ends in .svg.");
        }

        if (Directory.Exists(path))
        {
            throw new UsageException($"{path} is a folder. A picture is a file; give it another name.");
        }

        if (Path.GetDirectoryName(Path.GetFullPath(path)) is { } folder && !Directory.Exists(folder))
        {
            throw new UsageException($"{path}: there is no folder {folder}. Make it first, or write the picture elsewhere.");
        }

        StagedFile.Write(path, svg);
    }
}
