using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;

namespace DrumPrint.Fuzz.Targets;

/// <summary>A Standard MIDI File that a chain names as its tempo map.</summary>
internal sealed class MidiTarget : FuzzTarget
{
    private const string Path = "fuzz.mid";

    public override string Name => "midi";

    public override bool IsText => false;

    public override long BytesPerByte => 1024;

    protected override bool IsRefusal(Exception e) => e is UnreadableFileException;

    protected override bool Read(byte[] input)
    {
        var map = TempoReader.ReadMidi(input, Path, Path);
        var text = TempoWriter.Canonical(map);
        Require(double.IsFinite(map.SecondsAtBar(map.LastBar + 1)), "every bar has a time");
        try
        {
            Require(TempoWriter.Canonical(TempoReader.Parse(text, Path)) == text, "the canonical text of a map means the same map");
        }
        catch (ChainException e)
        {
            throw new FuzzFaultException("contradiction", $"the canonical text of a map is refused: {e.Message}");
        }

        return true;
    }
}
