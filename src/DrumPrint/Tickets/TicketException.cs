namespace DrumPrint.Tickets;

/// <summary>A ticket, or the part of one inside a print, that cannot be used.</summary>
public sealed class TicketException(string message, Exception? inner = null) : DrumPrintException(message, inner);
