namespace DrumPrint.Delivering;

/// <summary>A delivery that cannot be read or used.</summary>
public sealed class DeliveryException(string message, Exception? inner = null) : DrumPrintException(message, inner);
