using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Printing.Runs;

/// <summary>Tells prints of an earlier run from files that are somebody else's.</summary>
internal static class EarlierPrint
{
    /// <summary>Whether a print may take this name: nothing is there, or an empty file, or one that names DrumPrint as its maker.</summary>
    /// <exception cref="AudioFileException">The file cannot be read.</exception>
    public static bool MayReplace(string path)
    {
        if (!File.Exists(path))
        {
            return true;
        }

        try
        {
            return OwnFile.IsEmptyOrPrint(path);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Reading(path, e);
        }
    }
}
