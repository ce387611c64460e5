using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Printing.Runs;

/// <summary>Tells prints of an earlier run from files that are somebody else's.</summary>
internal static class EarlierPrint
{
    private const int FirstBytes = 4096;

    /// <summary>Whether a print may take this name: nothing is there, or an empty file, or one that names DrumPrint as its maker.</summary>
    /// <remarks>Only the first bytes are looked at, so that a damaged print can be replaced too.</remarks>
    /// <exception cref="AudioFileException">The file cannot be read.</exception>
    public static bool MayReplace(string path)
    {
        if (!File.Exists(path))
        {
            return true;
        }

        try
        {
            using var file = RegularFile.Open(path);
            var bytes = new byte[FirstBytes];
            var count = RandomAccess.Read(file, bytes, 0);
            return count == 0 || bytes.AsSpan(0, count).IndexOf(PrintBroadcast.Maker) >= 0;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Reading(path, e);
        }
    }
}
