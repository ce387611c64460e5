using DrumPrint.Chains.Reading;
using DrumPrint.Session;

namespace DrumPrint.Tickets;

/// <summary>Reads tickets.</summary>
internal static class TicketReader
{
    // It holds a chain with every default spelled out, and an account of each print.
    private const long MostBytes = 4 * SourceFile.MostBytes;

    public static Ticket Read(string path) => Parse(SourceFile.Read(path, MostBytes), path);

    public static Ticket Parse(byte[] utf8, string path)
    {
        var (values, chain) = RecordReader.Read(utf8, path, TicketKeys.Shape, TicketKeys.Ticket, "ticket", allowsEmpty: false);
        return new Ticket
        {
            Form = values.Whole(TicketKeys.Ticket),
            Engine = values.Text(RecordKeys.Engine)!,
            Chain = chain,
            ChainSha256 = values.Text(RecordKeys.ChainSha256)!,
            TempoSha256 = values.Text(RecordKeys.TempoSha256),
            Encoding = EncodingKeys.Of(values),
            Frames = (long)values.Number(RecordKeys.Length)!.Value,
            TrimDb = values.Number(RecordKeys.Trim)!.Value,
            NullPeakDbfs = values.IsOn(TicketKeys.NullIsExact) ? double.NegativeInfinity : values.Number(TicketKeys.NullPeak),
            Tracks = RecordReader.Inputs(values, RecordKeys.Tracks),
            Impulses = RecordReader.Inputs(values, RecordKeys.Impulses),
            Prints = [.. values.Entries(TicketKeys.Prints).Select(Print)],
            Notes = values.Texts(TicketKeys.Notes),
            Findings = values.Texts(TicketKeys.Findings),
        };
    }

    private static RecordedPrint Print(Values print) => new(
        print.Whole(TicketPrintKeys.Number),
        print.Text(TicketPrintKeys.Name)!,
        Enum.GetValues<PrintKind>().First(k => PrintKinds.Word(k) == print.Word(TicketPrintKeys.Kind)),
        print.Text(TicketPrintKeys.File)!,
        print.Whole(TicketPrintKeys.Channels),
        print.Text(TicketPrintKeys.AudioSha256)!,
        print.Text(TicketPrintKeys.FileSha256)!)
    {
        PeakDbfs = print.Number(TicketPrintKeys.Peak) ?? double.NegativeInfinity,
        IntegratedLufs = print.Number(TicketPrintKeys.Integrated) ?? double.NegativeInfinity,
        RangeLu = print.Number(TicketPrintKeys.Range) ?? 0,
        MaxMomentaryLufs = print.Number(TicketPrintKeys.MaxMomentary) ?? double.NegativeInfinity,
        MaxShortTermLufs = print.Number(TicketPrintKeys.MaxShortTerm) ?? double.NegativeInfinity,
        GainReductions = [.. print.Entries(TicketPrintKeys.GainReduction).Select(Reduction)],
        LatencyFrames = (long)print.Number(TicketPrintKeys.Latency)!.Value,
        TailS = print.Number(TicketPrintKeys.Tail)!.Value,
    };

    private static GainReduction Reduction(Values reduction) => new(
        reduction.Text(GainReductionKeys.Processor)!,
        reduction.Number(GainReductionKeys.Median)!.Value,
        reduction.Has(GainReductionKeys.Largest) ? reduction.Number(GainReductionKeys.Largest)!.Value : double.PositiveInfinity)
    {
        Bus = reduction.Text(GainReductionKeys.Bus),
    };
}
