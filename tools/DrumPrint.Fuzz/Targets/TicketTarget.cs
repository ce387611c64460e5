using System.Text;
using DrumPrint.Tickets;

namespace DrumPrint.Fuzz.Targets;

/// <summary>A ticket, with the chain and tempo map in it.</summary>
internal sealed class TicketTarget : FuzzTarget
{
    private const string Path = "fuzz.ticket.json";

    public override string Name => "ticket";

    protected override bool IsRefusal(Exception e) => e is TicketException;

    protected override bool Read(byte[] input)
    {
        var text = TicketReader.Parse(input, Path).ToText();
        try
        {
            Require(TicketReader.Parse(Encoding.UTF8.GetBytes(text), Path).ToText() == text, "a ticket that is written again means the same");
        }
        catch (TicketException e)
        {
            throw new FuzzFaultException("contradiction", $"a ticket that is written again is refused: {e.Message}");
        }

        return true;
    }
}
