using System.Runtime.InteropServices;

namespace DrumPrint.Cli.Output;

/// <summary>A limit on the length of files (ulimit -f) ends a program without a word. Told not to, the system says that the file is too large.</summary>
internal static class FileLimit
{
    private const int TooLargeOnLinuxAndMac = 25; // SIGXFSZ
    private const nint Ignore = 1;

    public static void TurnIntoErrors()
    {
        if (OperatingSystem.IsLinux() || OperatingSystem.IsMacOS())
        {
            _ = Signal(TooLargeOnLinuxAndMac, Ignore);
        }
    }

    [DllImport("libc", EntryPoint = "signal"), DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint Signal(int signal, nint handler);
}
