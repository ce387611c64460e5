namespace DrumPrint;

/// <summary>A failure that a user can read and act on. The message names the thing at fault, what is wrong and what was
/// expected.</summary>
public abstract class DrumPrintException(string message, Exception? inner = null) : Exception(message, inner);
