namespace DrumPrint.Files;

/// <summary>Tells a length that the system lets no file have as a disk without room.</summary>
/// <remarks>The runtime takes it for a wrong argument of the program. It is a limit of the user (<c>ulimit -f</c>) or of the disk.</remarks>
internal static class RefusedLength
{
    /// <summary>What it means.</summary>
    public static IOException Of(ArgumentOutOfRangeException e) => new("The system lets no file be as long as this.", FileReason.UnixFileTooBig);

    /// <summary>Does what gives a file its length.</summary>
    /// <exception cref="IOException">The system refused the length, or anything else went wrong.</exception>
    public static T Told<T>(Func<T> step)
    {
        try
        {
            return step();
        }
        catch (ArgumentOutOfRangeException e)
        {
            throw Of(e);
        }
    }

    /// <inheritdoc cref="Told{T}"/>
    public static void Told(Action step) => Told(() =>
    {
        step();
        return true;
    });
}
