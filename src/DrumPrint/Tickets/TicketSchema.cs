using DrumPrint.Chains.Describing;

namespace DrumPrint.Tickets;

/// <summary>Tickets as JSON Schema, made from the declarations that reader and writer go by.</summary>
public static class TicketSchema
{
    /// <summary>The schema of a ticket.</summary>
    public static string Text() => ChainSchema.Text("DrumPrint ticket", TicketKeys.Shape, [InputKeys.Shape, TicketPrintKeys.Shape, GainReductionKeys.Shape]);

    /// <summary>The schema of the part of a ticket that a print carries.</summary>
    public static string PartText() => ChainSchema.Text("Part of a DrumPrint ticket inside a print", PartKeys.Shape, [InputKeys.Shape]);
}
