namespace DrumPrint;

/// <summary>Something asked for does not exist or does not go together.</summary>
public sealed class UsageException(string message) : DrumPrintException(message);
