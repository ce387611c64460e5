namespace DrumPrint.Printing.Runs;

/// <summary>Prints would go above 0 dBFS; nothing was written.</summary>
public sealed class OverloadException(string message) : DrumPrintException(message);
