using System.Text;
using DrumPrint.Files;
using DrumPrint.Store;

namespace DrumPrint.Fuzz.Targets;

/// <summary>The mark by which a store is known.</summary>
internal sealed class MarkTarget : FuzzTarget
{
    private readonly ScratchFolder _folder = new();
    private readonly ScratchFile _file;
    private readonly byte[] _genuine;

    public MarkTarget()
    {
        StoreMark.Write(_folder.Path, StoreSecret.Bytes, FileSteps.Plain);
        var path = _folder.File(StoreMark.FileName);
        _genuine = File.ReadAllBytes(path);
        File.Delete(path);
        _file = new ScratchFile(path);
    }

    public override string Name => "mark";

    public override int MostBytes => 2048;

    public override long BaseBytes => 64 << 10;

    public override long BytesPerByte => 64;

    // Larger than any mark.
    protected override bool IsRefusal(Exception e) => e is IrregularFileException;

    protected override bool Read(byte[] input)
    {
        _file.Put(input);
        if (StoreMark.Read(_folder.Path, StoreSecret.Bytes) is null)
        {
            return false;
        }

        // Nobody without the secret can write a sum, and the secret of this one is known here only to make it.
        Require(HasGenuineSum(Encoding.UTF8.GetString(input)), "no mark is believed but with a sum under the secret");
        return true;
    }

    protected override void Dispose(bool disposing)
    {
        _file.Dispose();
        _folder.Dispose();
        base.Dispose(disposing);
    }

    private bool HasGenuineSum(string text)
    {
        var lines = text.Split('\n');
        var genuine = Encoding.UTF8.GetString(_genuine).Split('\n');
        var sum = Convert.ToHexStringLower(System.Security.Cryptography.HMACSHA256.HashData(StoreSecret.Bytes, Encoding.UTF8.GetBytes($"{genuine[0]}\n{lines[1]}")));
        return lines[0] == genuine[0] && lines[2] == sum;
    }
}
