using System.Globalization;

namespace DrumPrint.Session;

/// <summary>The version of the song that the name of a file tells.</summary>
internal static class VersionInName
{
    private const string PrintEnd = ".wav";
    private const string TicketEnd = ".ticket.json";

    /// <summary>Of a print such as <c>01_Kick_SlowFerry_v1.wav</c>; null for any other name.</summary>
    public static int? OfPrint(string name, string code)
    {
        var mark = $"_{code}_v";
        var at = name.LastIndexOf(mark, StringComparison.OrdinalIgnoreCase);
        return at > 0 && char.IsAsciiDigit(name[0]) ? Number(name, at + mark.Length, PrintEnd) : null;
    }

    /// <summary>Of a ticket such as <c>SlowFerry_v1.ticket.json</c>; null for any other name.</summary>
    public static int? OfTicket(string name, string code)
    {
        var mark = $"{code}_v";
        return name.StartsWith(mark, StringComparison.OrdinalIgnoreCase) ? Number(name, mark.Length, TicketEnd) : null;
    }

    private static int? Number(string name, int from, string end) =>
        name.Length > from + end.Length
        && name.EndsWith(end, StringComparison.OrdinalIgnoreCase)
        && int.TryParse(name[from..^end.Length], NumberStyles.None, CultureInfo.InvariantCulture, out var version)
            ? version
            : null;
}
