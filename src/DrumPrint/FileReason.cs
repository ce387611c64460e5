namespace DrumPrint;

/// <summary>Says in our own words why the operating system refused a file or folder.</summary>
public static class FileReason
{
    // The runtime passes on the system's own numbers: errno on Unix (POSIX; Linux and macOS where they differ), HRESULT on Windows.
    internal const int UnixFileTooBig = 27;
    private const int UnixInputOutput = 5;
    private const int UnixExists = 17;
    private const int UnixNotAFolder = 20;
    internal const int UnixNoSpace = 28;
    private const int UnixFilesOfAll = 23;
    private const int UnixFilesOfOne = 24;
    private const int UnixReadOnly = 30;
    private const int UnixPipe = 32;
    private const int UnixBadFile = 9;
    private const int LinuxInUse = 11;
    private const int LinuxNameTooLong = 36;
    private const int LinuxCircle = 40;
    private const int LinuxQuota = 122;
    private const int MacInUse = 35;
    private const int MacCircle = 62;
    private const int MacNameTooLong = 63;
    private const int MacQuota = 69;

    // What the runtime gives where it found the trouble itself, as a folder in the place of a file.
    internal const int RuntimeGeneral = unchecked((int)0x8013_1620);
    private const int WindowsWriteProtected = unchecked((int)0x8007_0013);
    private const int WindowsInUse = unchecked((int)0x8007_0020);
    private const int WindowsHandleDiskFull = unchecked((int)0x8007_0027);
    private const int WindowsDiskFull = unchecked((int)0x8007_0070);
    private const int WindowsExists = unchecked((int)0x8007_00B7);

    /// <summary>A clause without a full stop: <c>its permissions forbid it</c>.</summary>
    /// <param name="e">What the runtime threw.</param>
    public static string Of(Exception e)
    {
        ArgumentNullException.ThrowIfNull(e);
        return e switch
        {
            IrregularFileException irregular => irregular.Reason,
            UnauthorizedAccessException => "its permissions forbid it",
            FileNotFoundException or DirectoryNotFoundException => "it is not there",
            PathTooLongException => "its name is too long",
            ArgumentException or NotSupportedException => "this is not a usable name",
            _ when IsNoRoom(e) => "there is not enough room on the disk",
            _ when IsInUse(e) => "another program has it open",
            _ => OfNumber(e.HResult),
        };
    }

    /// <summary>The file or folder an exception of the runtime is about, where it says so.</summary>
    public static string? PathOf(Exception e)
    {
        ArgumentNullException.ThrowIfNull(e);
        var start = e.Message.IndexOf('\'', StringComparison.Ordinal);
        var end = e.Message.LastIndexOf('\'');
        return end > start + 1 ? e.Message[(start + 1)..end] : null;
    }

    internal static bool IsNoRoom(Exception e) =>
        e.HResult is UnixNoSpace or UnixFileTooBig or LinuxQuota or MacQuota or WindowsDiskFull or WindowsHandleDiskFull;

    internal static bool IsInUse(Exception e) => e.HResult is LinuxInUse or MacInUse or WindowsInUse;

    private static string OfNumber(int number) => number switch
    {
        UnixInputOutput => "the disk does not answer as it should",
        UnixExists or WindowsExists => "a file of that name is in the way",
        UnixBadFile or UnixPipe => "nobody reads there any more",
        UnixFilesOfAll or UnixFilesOfOne => "too many files are open at once; raise the limit (ulimit -n)",
        UnixNotAFolder => "what should be its folder is a file",
        UnixReadOnly or WindowsWriteProtected => "the disk is write-protected",
        LinuxNameTooLong or MacNameTooLong => "its name is too long",
        LinuxCircle or MacCircle => "its links lead in a circle",
        RuntimeGeneral => "something else stands at its name",
        _ => FormattableString.Invariant($"the system refused it for its reason {number}"),
    };
}
