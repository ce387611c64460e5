using DrumPrint.Files;

namespace DrumPrint.Audio;

/// <summary>Puts the operating system's complaints about files into words.</summary>
internal static class FileTrouble
{
    public static bool IsFileTrouble(Exception e) => FileErrors.Are(e);

    public static AudioFileException Reading(string path, Exception e)
    {
        var problem = e switch
        {
            _ when Directory.Exists(path) => "this is a folder, not an audio file.",
            FileNotFoundException or DirectoryNotFoundException => "there is no such file." + NearbyFile.Hint(path),
            UnauthorizedAccessException => "the file may not be read; its permissions forbid it.",
            ArgumentException or NotSupportedException => "this is not a usable file name.",
            _ when FileReason.IsInUse(e) => "the file cannot be read while another program is writing it.",
            _ => $"the file cannot be read: {FileReason.Of(e)}.",
        };
        return new AudioFileException(path, problem, e);
    }

    public static AudioFileException Writing(string path, Exception e)
    {
        if (FileReason.IsNoRoom(e))
        {
            return NoRoom(path, e);
        }

        var problem = e switch
        {
            IrregularFileException irregular => $"nothing can be written there: {irregular.Reason}.",
            _ when Directory.Exists(path) => "the file cannot be written: a folder of that name is in the way.",
            DirectoryNotFoundException => "the file cannot be written: its folder does not exist.",
            UnauthorizedAccessException => "the file cannot be written: the permissions of the folder or of an older file forbid it.",
            ArgumentException or NotSupportedException => "this is not a usable file name.",
            _ when FileReason.IsInUse(e) => "the file cannot be written while another program has it open.",
            _ => $"the file cannot be written: {FileReason.Of(e)}.",
        };
        return new AudioFileException(path, problem, e);
    }

    private static AudioFileException NoRoom(string path, Exception e) => new(path, "the file cannot be written: there is not enough room on the disk.", e);
}
