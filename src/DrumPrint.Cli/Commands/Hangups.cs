using System.Runtime.InteropServices;

namespace DrumPrint.Cli.Commands;

/// <summary>Ends a command in order when its terminal window is closed, as Ctrl-C does, or when a file may not grow.</summary>
internal static class Hangups
{
    // POSIX names it without a number; Linux and macOS give it this one. Unheard it ends the program on the spot.
    private const PosixSignal FileTooBig = (PosixSignal)25;

    /// <summary>Does something that these signals stop as well.</summary>
    public static int Heard(Func<CancellationToken, int> action, CancellationToken cancel)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        using var closed = On(PosixSignal.SIGHUP, stop);
        using var quit = On(PosixSignal.SIGQUIT, stop);
        using var tooBig = OperatingSystem.IsWindows() ? null : On(FileTooBig, null);
        return action(stop.Token);
    }

    private static PosixSignalRegistration? On(PosixSignal signal, CancellationTokenSource? stop)
    {
        try
        {
            return PosixSignalRegistration.Create(signal, context =>
            {
                context.Cancel = true;
                try
                {
                    stop?.Cancel(); // a refused write tells itself
                }
                catch (ObjectDisposedException)
                {
                    // It has just ended by itself.
                }
            });
        }
        catch (PlatformNotSupportedException)
        {
            return null; // a system that has no such signal
        }
    }
}
