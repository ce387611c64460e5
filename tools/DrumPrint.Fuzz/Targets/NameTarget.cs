using System.Text;
using DrumPrint.Files;

namespace DrumPrint.Fuzz.Targets;

/// <summary>A name that came with somebody's file: what is allowed stays in the folder.</summary>
internal sealed class NameTarget : FuzzTarget
{
    private readonly ScratchFolder _folder = new();

    public override string Name => "name";

    public override int MostBytes => 1024;

    public override long BaseBytes => 256 << 10;

    public override long BytesPerByte => 2048;

    protected override bool Read(byte[] input)
    {
        var name = Encoding.UTF8.GetString(input);
        var isBare = ReceivedName.IsBare(name);
        Require(!isBare || Path.GetDirectoryName(Path.GetFullPath(_folder.File(name))) == _folder.Path, "a bare name lies in the folder itself");
        new SessionReach(ReadPolicy.Default, _folder.Path).Outside(name);
        if (ReceivedName.Trouble(_folder.Path, name) is not null)
        {
            Require(!isBare, "a bare name makes no trouble");
            return false;
        }

        Require(Path.GetFullPath(Path.Combine(_folder.Path, name)).StartsWith(_folder.Path + Path.DirectorySeparatorChar, StringComparison.Ordinal), "an allowed name lies below the folder");
        return true;
    }

    protected override void Dispose(bool disposing)
    {
        _folder.Dispose();
        base.Dispose(disposing);
    }
}
