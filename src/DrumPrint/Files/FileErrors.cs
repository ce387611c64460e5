namespace DrumPrint.Files;

/// <summary>Tells what the runtime throws about files and their names from faults of the program.</summary>
internal static class FileErrors
{
    public static bool Are(Exception e) =>
        e is IOException or UnauthorizedAccessException or NotSupportedException
        || (e is ArgumentException && e is not (ArgumentNullException or ArgumentOutOfRangeException));
}
