using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Delivering;

namespace DrumPrint.Fuzz.Targets;

/// <summary>A tempo map, and the two files that a delivery makes of it.</summary>
internal sealed class TempoTarget : FuzzTarget
{
    private const string Path = "fuzz.tempo.json";

    // A map of 9999 bars is made from a hundred bytes, and its list of bars has a line for each.
    public override long BaseBytes => 24 << 20;

    public override string Name => "tempo";

    protected override bool IsRefusal(Exception e) => e is ChainException;

    protected override bool Read(byte[] input)
    {
        var map = TempoReader.Parse(input, Path, Path);
        var text = TempoWriter.Canonical(map);
        Require(TempoWriter.Canonical(Again(text)) == text, "a tempo map's canonical text means the same map");
        Require(double.IsFinite(map.SecondsAtBar(map.LastBar + 1)), "every bar has a time");
        var song = new Song("Fuzz", "Fuzz", 1, 48000, map, -3, 20);
        Require(TempoFiles.Midi(map, song.Title).Length > 0, "a tempo map can be written as MIDI");
        Require(TempoFiles.Text(map, song).Length > 0, "a tempo map can be written as a list of bars");
        return true;
    }

    private static TempoMap Again(string text)
    {
        try
        {
            return TempoReader.Parse(text, Path);
        }
        catch (ChainException e)
        {
            throw new FuzzFaultException("contradiction", $"a tempo map's canonical text is refused: {e.Message}");
        }
    }
}
