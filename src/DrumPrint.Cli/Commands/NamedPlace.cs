using DrumPrint.Chains;

namespace DrumPrint.Cli.Commands;

/// <summary>Files and folders as the command line names them.</summary>
internal static class NamedPlace
{
    /// <summary>Passes where something is there, a file or a folder.</summary>
    /// <exception cref="UnreadableFileException">Nothing is; with the exit code of files that cannot be read.</exception>
    public static void MustExist(string path)
    {
        if (!File.Exists(path) && !Directory.Exists(path))
        {
            throw new UnreadableFileException(path, "there is no such file or folder.");
        }
    }
}
