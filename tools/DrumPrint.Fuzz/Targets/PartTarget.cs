using DrumPrint.Tickets;

namespace DrumPrint.Fuzz.Targets;

/// <summary>The chunk by which a print is made again.</summary>
internal sealed class PartTarget : FuzzTarget
{
    private const string Path = "fuzz.wav";

    public override string Name => "part";

    protected override bool IsRefusal(Exception e) => e is TicketException;

    protected override bool Read(byte[] input)
    {
        var chunk = PrintPart.Parse(input, Path).ToChunk();
        try
        {
            var again = PrintPart.Parse(chunk.Data.ToArray(), Path);
            Require(again.ToChunk().Data.Span.SequenceEqual(chunk.Data.Span), "a print's part that is written again means the same");
        }
        catch (TicketException e)
        {
            throw new FuzzFaultException("contradiction", $"a print's part that is written again is refused: {e.Message}");
        }

        return true;
    }
}
