namespace DrumPrint.Tests.Support;

/// <summary>How a step that changes the disk goes wrong.</summary>
public enum Fault
{
    /// <summary>It fails, and what comes after does not.</summary>
    Fails,

    /// <summary>Bytes find room for their first half only, and what comes after is done.</summary>
    Tears,

    /// <summary>The process ends there, with half of the bytes written; nothing is done after it.</summary>
    Ends,
}
