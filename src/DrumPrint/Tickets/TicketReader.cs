using DrumPrint.Chains.Reading;
using DrumPrint.Files;
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
        var twice = values.Entries(TicketKeys.Prints).GroupBy(p => p.Whole(TicketPrintKeys.Number)).FirstOrDefault(g => g.Skip(1).Any());
        if (twice is not null)
        {
            throw new TicketException($"{path}: prints: number {twice.Key} stands there twice. A ticket tells of each print once.");
        }

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
            Prints = [.. values.Entries(TicketKeys.Prints).Select(p => Print(p, path))],
            Notes = values.Texts(TicketKeys.Notes),
            Findings = values.Texts(TicketKeys.Findings),
        };
    }

    private static RecordedPrint Print(Values print, string path) => new(
        print.Whole(TicketPrintKeys.Number),
        print.Text(TicketPrintKeys.Name)!,
        Enum.GetValues<PrintKind>().First(k => PrintKinds.Word(k) == print.Word(TicketPrintKeys.Kind)),
        BareName(print.Text(TicketPrintKeys.File)!, path),
        print.Whole(TicketPrintKeys.Channels),
        print.Text(TicketPrintKeys.AudioSha256)!,
        print.Text(TicketPrintKeys.FileSha256)!)
    {
        PeakDbfs = print.Number(TicketPrintKeys.Peak) ?? double.NegativeInfinity,
        TruePeakDbtp = print.Number(TicketPrintKeys.TruePeak) ?? double.NegativeInfinity,
        IntegratedLufs = print.Number(TicketPrintKeys.Integrated) ?? double.NegativeInfinity,
        RangeLu = print.Number(TicketPrintKeys.Range) ?? 0,
        MaxMomentaryLufs = print.Number(TicketPrintKeys.MaxMomentary) ?? double.NegativeInfinity,
        MaxShortTermLufs = print.Number(TicketPrintKeys.MaxShortTerm) ?? double.NegativeInfinity,
        GainReductions = [.. print.Entries(TicketPrintKeys.GainReduction).Select(Reduction)],
        LatencyFrames = (long)print.Number(TicketPrintKeys.Latency)!.Value,
        TailS = print.Number(TicketPrintKeys.Tail)!.Value,
    };

    // The prints lie beside the ticket. A ticket that names a file elsewhere is not one of ours.
    private static string BareName(string file, string path) => ReceivedName.IsBare(file)
        ? file
        : throw new TicketException($"{path}: prints: '{file}' is no file name by itself. A ticket names the prints that lie beside it, such as 01_Kick_Song_v1.wav.");

    private static GainReduction Reduction(Values reduction) => new(
        reduction.Text(GainReductionKeys.Processor)!,
        reduction.Number(GainReductionKeys.Median)!.Value,
        reduction.Has(GainReductionKeys.Largest) ? reduction.Number(GainReductionKeys.Largest)!.Value : double.PositiveInfinity)
    {
        Bus = reduction.Text(GainReductionKeys.Bus),
    };
}
