using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;

namespace DrumPrint.Fuzz.Targets;

/// <summary>A chain, with a tempo map beside it; then its canonical text, and the change that an alignment would make in it.</summary>
internal sealed class ChainTarget : FuzzTarget
{
    private readonly ScratchFolder _folder = new();
    private readonly string _path;

    public ChainTarget()
    {
        _path = _folder.File("fuzz.chain.json");
        Directory.CreateDirectory(_folder.File("raw"));
        foreach (var map in new[] { "tempo.json", "raw/tempo.json" })
        {
            File.WriteAllText(_folder.File(map), """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 104 } ], "last_bar": 200 }""");
        }
    }

    public override string Name => "chain";

    protected override bool IsRefusal(Exception e) => e is ChainException or UsageException;

    protected override bool Read(byte[] input)
    {
        var chain = ChainReader.Parse(input, _path);
        var text = ChainWriter.Canonical(chain);
        Require(ChainWriter.Canonical(Again(text)) == text, "a chain's canonical text means the same chain");
        if (chain.Tracks.Count > 0)
        {
            Align(input, chain.Tracks[0].Name);
        }

        return true;
    }

    protected override void Dispose(bool disposing)
    {
        _folder.Dispose();
        base.Dispose(disposing);
    }

    private Chain Again(string text)
    {
        try
        {
            return ChainReader.Parse(text, _path);
        }
        catch (ChainException e)
        {
            throw new FuzzFaultException("contradiction", $"a chain's canonical text is refused: {e.Message}");
        }
    }

    // As the alignment writes it. A track may say its delay in another way already, which is then said to be once too much.
    private void Align(byte[] input, string track)
    {
        var changed = ChainEdit.Set(input, ["tracks", track], "file", "delay_ms", "1.5");
        Require(ChainEdit.Get(changed, ["tracks", track], "delay_ms") == "1.5", "a value that was set is there");
        ChainReader.Parse(changed, _path);
    }
}
