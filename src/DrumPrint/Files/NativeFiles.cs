using System.Runtime.InteropServices;
using System.Text;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Files;

/// <summary>The two things that the runtime knows of files on Unix and does not tell: what kind one is, and how to open a folder.</summary>
/// <remarks>Asked of the library that the runtime itself asks (<c>libSystem.Native</c>). It has one form on Linux and macOS, which the
/// systems' own calls have not, and it is there in native builds too.</remarks>
internal static class NativeFiles
{
    private const string Library = "libSystem.Native";

    // More than the runtime's own structure takes; the kind stands in its second word.
    private const int StatusBytes = 512;
    private const int ModeAt = 4;
    private const int KindMask = 0xF000;

    private const int ReadOnly = 0;
    private const int CloseOnExec = 0x10;

    /// <summary>The bits of a file's mode that say what kind it is, links followed; null when there is none or it cannot be looked at.</summary>
    public static int? Kind(string path)
    {
        var status = new byte[StatusBytes];
        return Stat(Name(path), status) == 0 ? BitConverter.ToInt32(status, ModeAt) & KindMask : null;
    }

    /// <summary>Opens a folder, for bringing its entries to the disk; the handle is invalid where that cannot be done.</summary>
    public static SafeFileHandle OpenFolder(string path) => new(Open(Name(path), ReadOnly | CloseOnExec, 0), ownsHandle: true);

    private static byte[] Name(string path) => [.. Encoding.UTF8.GetBytes(path), 0];

    [DllImport(Library, EntryPoint = "SystemNative_Stat"), DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Stat(byte[] path, [Out] byte[] status);

    [DllImport(Library, EntryPoint = "SystemNative_Open"), DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint Open(byte[] path, int flags, int mode);
}
