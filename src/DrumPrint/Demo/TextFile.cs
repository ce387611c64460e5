using System.Text;
using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Demo;

/// <summary>Writes text and folders of the session, failing in words a user can act on.</summary>
internal static class TextFile
{
    private const long MostBytes = 1 << 20;

    public static void MakeFolder(string path, FileSteps steps)
    {
        try
        {
            steps.MakeFolder(path);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(path, e);
        }
    }

    /// <summary>The text of a file; null when there is none.</summary>
    public static string? Find(string path)
    {
        try
        {
            return File.Exists(path) ? Encoding.UTF8.GetString(RegularFile.ReadAll(path, MostBytes)) : null;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Reading(path, e);
        }
    }

    /// <summary>Writes a file under a temporary name, then gives it its own.</summary>
    public static string Write(string path, string text, FileSteps steps)
    {
        try
        {
            StagedFile.Write(path, text, steps: steps);
            return path;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(path, e);
        }
    }
}
