using System.ComponentModel;
using System.Diagnostics;

namespace DrumPrint.Cli.Output;

/// <summary>The browser that the system opens addresses with.</summary>
internal static class WebBrowser
{
    /// <summary>Opens an address of this machine.</summary>
    /// <returns>False where there is none, or no screen to show it on.</returns>
    public static bool Open(string address)
    {
        try
        {
            if (OperatingSystem.IsWindows())
            {
                using var shell = Process.Start(new ProcessStartInfo(address) { UseShellExecute = true });
                return true;
            }

            if (!OperatingSystem.IsMacOS() && Environment.GetEnvironmentVariable("DISPLAY") is null && Environment.GetEnvironmentVariable("WAYLAND_DISPLAY") is null)
            {
                return false;
            }

            using var opener = Process.Start(new ProcessStartInfo(OperatingSystem.IsMacOS() ? "open" : "xdg-open") { ArgumentList = { address }, RedirectStandardOutput = true, RedirectStandardError = true });
            return opener is not null;
        }
        catch (Exception e) when (e is Win32Exception or FileNotFoundException or InvalidOperationException)
        {
            return false;
        }
    }
}
