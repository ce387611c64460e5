using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Delivering;

/// <summary>The folder that deliveries and archives go to, held by one run at a time.</summary>
internal static class HeldPlace
{
    /// <summary>Does something in it. It is made where it is not there; what is refused leaves no empty folder behind.</summary>
    /// <param name="to">The folder.</param>
    /// <param name="run">What is made there, such as <c>delivery</c>.</param>
    /// <param name="verb">What making it is called, such as <c>deliver</c>.</param>
    /// <param name="steps">Does it.</param>
    /// <param name="make">Makes it.</param>
    /// <exception cref="UsageException">A file has its name.</exception>
    /// <exception cref="AudioFileException">Another run has it, or it cannot be written to.</exception>
    public static T With<T>(string to, string run, string verb, FileSteps steps, Func<T> make)
    {
        if (File.Exists(to))
        {
            throw new UsageException($"--to {to}: this is a file. Name a folder; it is made if it is not there.");
        }

        var isNew = !Directory.Exists(to);
        steps.MakeFolder(to);
        try
        {
            using var place = new FolderLock(steps);
            place.Take(to, run, $"{verb} to another folder with --to");
            Leftovers.ClearFolders(to, steps);
            return make();
        }
        finally
        {
            if (isNew && !Directory.EnumerateFileSystemEntries(to).Any())
            {
                steps.TryDeleteFolder(to);
            }
        }
    }
}
