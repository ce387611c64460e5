using System.Globalization;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Files;

/// <summary>Opens files for reading, and nothing that only looks like one: reading a pipe waits for ever, and a device has no end.</summary>
internal static class RegularFile
{
    private const int Pipe = 0x1000;
    private const int CharacterDevice = 0x2000;
    private const int BlockDevice = 0x6000;
    private const int Socket = 0xC000;

    /// <summary>Opens a file; others may read it at the same time.</summary>
    /// <exception cref="IrregularFileException">It is a pipe, a device or a socket.</exception>
    /// <exception cref="IOException">It is not there or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read, or is a folder.</exception>
    public static SafeFileHandle Open(string path, FileShare share = FileShare.Read)
    {
        Check(path);
        return File.OpenHandle(path, FileMode.Open, FileAccess.Read, share, FileOptions.SequentialScan);
    }

    /// <summary>Reads a file whole.</summary>
    /// <param name="path">The file.</param>
    /// <param name="mostBytes">Largest that is read.</param>
    /// <exception cref="IrregularFileException">It is a pipe, a device or a socket, or larger than that.</exception>
    /// <exception cref="IOException">It is not there or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read, or is a folder.</exception>
    public static byte[] ReadAll(string path, long mostBytes)
    {
        using var handle = Open(path);
        return ReadAll(handle, mostBytes);
    }

    /// <summary>Reads an open file whole.</summary>
    /// <exception cref="IrregularFileException">It is larger than that.</exception>
    public static byte[] ReadAll(SafeFileHandle handle, long mostBytes)
    {
        var length = RandomAccess.GetLength(handle);
        if (length > mostBytes)
        {
            throw new IrregularFileException(string.Create(CultureInfo.InvariantCulture, $"it is {Size(length)} large; at most {Size(mostBytes)} are read of such a file"));
        }

        var bytes = new byte[length];
        var read = 0;
        for (int part; read < bytes.Length && (part = RandomAccess.Read(handle, bytes.AsSpan(read), read)) > 0;)
        {
            read += part;
        }

        return read == bytes.Length ? bytes : bytes[..read];
    }

    /// <summary>Passes for a file, for a folder and where nothing is: what opens them says the rest.</summary>
    /// <exception cref="IrregularFileException">It is a pipe, a device or a socket.</exception>
    public static void Check(string path)
    {
        if (Irregular(Path.GetFullPath(path)) is { } kind)
        {
            throw new IrregularFileException($"it is a {kind}, not a file");
        }
    }

    private static string Size(long bytes) => bytes < 1 << 20 ? string.Create(CultureInfo.InvariantCulture, $"{bytes} bytes") : string.Create(CultureInfo.InvariantCulture, $"{bytes / 1048576.0:0.#} MB");

    // Opening a pipe waits, so this must be known before. On Windows a path to anything but a disk does not open as a file.
    private static string? Irregular(string path) => OperatingSystem.IsWindows()
        ? path.StartsWith(@"\\.\", StringComparison.Ordinal) || path.StartsWith(@"\\?\GLOBALROOT", StringComparison.OrdinalIgnoreCase) ? "device" : null
        : NativeFiles.Kind(path) switch
        {
            Pipe => "pipe",
            CharacterDevice or BlockDevice => "device",
            Socket => "socket",
            _ => null,
        };
}
