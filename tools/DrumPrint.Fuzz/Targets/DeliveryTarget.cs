using System.Text;
using DrumPrint.Delivering;

namespace DrumPrint.Fuzz.Targets;

/// <summary>A delivery's manifest, and the check of a small folder by it.</summary>
internal sealed class DeliveryTarget : FuzzTarget
{
    private const string ManifestName = "Fuzz_v1.delivery.json";

    private readonly ScratchFolder _folder = new();
    private readonly ScratchFile _file;

    public DeliveryTarget()
    {
        File.WriteAllText(_folder.File("SHA256SUMS"), $"{new string('0', 64)}  01_Kick_Fuzz_v1.wav\n");
        File.WriteAllBytes(_folder.File("01_Kick_Fuzz_v1.wav"), [.. "RIFF"u8, 44, 0, 0, 0, .. "WAVEfmt "u8, 16, 0, 0, 0, 1, 0, 1, 0, 0x80, 0xBB, 0, 0, 0, 0x77, 1, 0, 2, 0, 16, 0, .. "data"u8, 8, 0, 0, 0, 1, 0, 2, 0, 3, 0, 4, 0]);
        _file = new ScratchFile(_folder.File(ManifestName));
    }

    public override string Name => "delivery";

    protected override bool IsRefusal(Exception e) => e is DeliveryException;

    protected override bool Read(byte[] input)
    {
        var manifest = ManifestReader.Parse(input, ManifestName);
        var text = manifest.ToText();
        try
        {
            Require(ManifestReader.Parse(Encoding.UTF8.GetBytes(text), ManifestName).ToText() == text, "a manifest that is written again means the same");
        }
        catch (DeliveryException e)
        {
            throw new FuzzFaultException("contradiction", $"a manifest that is written again is refused: {e.Message}");
        }

        _file.Put(input);
        Require(!DeliveryCheck.Check(_folder.Path).IsWhole, "no manifest makes a folder whole that is not");
        return true;
    }

    protected override void Dispose(bool disposing)
    {
        _file.Dispose();
        _folder.Dispose();
        base.Dispose(disposing);
    }
}
