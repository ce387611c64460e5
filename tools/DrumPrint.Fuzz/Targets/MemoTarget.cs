using System.Text;
using DrumPrint.Store;

namespace DrumPrint.Fuzz.Targets;

/// <summary>What is kept of a print: once as it is, and once with its sum put right.</summary>
internal sealed class MemoTarget : FuzzTarget
{
    private readonly StoreSums _sums = StoreSecret.Sums();

    public override string Name => "memo";

    public override long BaseBytes => 1 << 20;

    public override long BytesPerByte => 256;

    protected override bool Read(byte[] input)
    {
        PrintMemoText.Parse(_sums, StoreSecret.Key, input);
        var text = Encoding.UTF8.GetString(input);
        var json = text[(text.IndexOf('\n', StringComparison.Ordinal) + 1)..];
        if (PrintMemoText.Parse(_sums, StoreSecret.Key, Encoding.UTF8.GetBytes($"{_sums.Of(json)}\n{json}")) is not { } memo)
        {
            return false;
        }

        var written = PrintMemoText.Of(_sums, StoreSecret.Key, memo);
        Require(
            PrintMemoText.Parse(_sums, StoreSecret.Key, written) is { } again && PrintMemoText.Of(_sums, StoreSecret.Key, again).AsSpan().SequenceEqual(written),
            "a memo that is written again means the same");
        return true;
    }
}
