namespace DrumPrint.Tests.Files;

/// <summary>Links in tests.</summary>
internal static class Links
{
    /// <summary>Makes a link to a file or folder; false where the system does not let this user.</summary>
    public static bool Make(string path, string target)
    {
        try
        {
            _ = Directory.Exists(target) ? Directory.CreateSymbolicLink(path, target) : File.CreateSymbolicLink(path, target);
            return true;
        }
        catch (Exception e) when (OperatingSystem.IsWindows() && e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }
}
