using System.Runtime.InteropServices;

namespace DrumPrint.Cli.Output;

/// <summary>Whether the console window was opened for this program alone, by a double click, and closes with it.</summary>
internal static class OwnWindow
{
    /// <summary>True on Windows when no shell shares the console; false everywhere else.</summary>
    public static bool IsOurs => OperatingSystem.IsWindows() && !Terminal.IsOutputRedirected && GetConsoleProcessList(new uint[2], 2) == 1;

    // The number of processes that share the console; 0 when there is none.
    [DllImport("kernel32.dll"), DefaultDllImportSearchPaths(DllImportSearchPath.System32)]
    private static extern uint GetConsoleProcessList([Out] uint[] processes, uint room);
}
