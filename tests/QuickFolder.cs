using System.Diagnostics.CodeAnalysis;
using System.Runtime.CompilerServices;

namespace DrumPrint;

/// <summary>Where tests put their sessions: in memory, where there is plenty of it. Nothing of them has to outlast the run.</summary>
internal static class QuickFolder
{
    // Linux keeps what lies here in memory.
    private const string Memory = "/dev/shm";

    // Many times what the tests hold at any moment.
    private const long LeastBytes = 8L << 30;

    [ModuleInitializer]
    [SuppressMessage("Usage", "CA2255", Justification = "Folders are made before any test can say where; whoever has named a place keeps it.")]
    internal static void Choose()
    {
        if (OperatingSystem.IsLinux() && Environment.GetEnvironmentVariable("TMPDIR") is null && Directory.Exists(Memory) && new DriveInfo(Memory).AvailableFreeSpace >= LeastBytes)
        {
            var folder = Path.Combine(Memory, $"drumprint-tests-{Guid.NewGuid():N}");
            Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
            Environment.SetEnvironmentVariable("TMPDIR", folder);
            AppDomain.CurrentDomain.ProcessExit += (_, _) => Clear(folder);
        }
    }

    private static void Clear(string folder)
    {
        try
        {
            Directory.Delete(folder, recursive: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Something still writes there; the run has ended all the same.
        }
    }
}
