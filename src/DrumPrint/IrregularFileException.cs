namespace DrumPrint;

/// <summary>What is to be read is no plain file: a pipe, a device, a socket, or more than is ever read of its kind.</summary>
/// <param name="reason">A clause without a full stop: <c>it is a pipe, not a file</c>.</param>
public sealed class IrregularFileException(string reason) : IOException(reason)
{
    /// <summary>Why it is not read.</summary>
    public string Reason { get; } = reason;
}
