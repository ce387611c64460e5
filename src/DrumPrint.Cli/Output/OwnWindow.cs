using System.Runtime.InteropServices;

namespace DrumPrint.Cli.Output;

/// <summary>The window the program writes into, which may have been opened for it alone, by a double click, and close with it.</summary>
/// <param name="isOurs">Whether it closes with the program.</param>
/// <param name="waitForKey">Waits until somebody has read it.</param>
internal sealed class OwnWindow(bool isOurs, Action waitForKey)
{
    /// <summary>The one there is. It is ours on Windows when no shell shares the console, and nowhere else.</summary>
    public static OwnWindow Current => new(OperatingSystem.IsWindows() && !Terminal.IsOutputRedirected && GetConsoleProcessList(new uint[2], 2) == 1, Terminal.WaitForKey);

    /// <summary>Keeps a window of ours open until a key is pressed; does nothing in any other.</summary>
    public void Hold()
    {
        if (isOurs)
        {
            Terminal.Tell("");
            Terminal.Tell("Type these into a terminal that is open in this folder. Press a key to close this window.");
            waitForKey();
        }
    }

    // The number of processes that share the console; 0 when there is none.
    [DllImport("kernel32.dll"), DefaultDllImportSearchPaths(DllImportSearchPath.System32)]
    private static extern uint GetConsoleProcessList([Out] uint[] processes, uint room);
}
