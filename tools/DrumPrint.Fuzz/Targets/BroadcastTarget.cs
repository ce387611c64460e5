using DrumPrint.Audio;

namespace DrumPrint.Fuzz.Targets;

/// <summary>The <c>bext</c> chunk.</summary>
internal sealed class BroadcastTarget : FuzzTarget
{
    public override string Name => "bext";

    public override int MostBytes => 1 << 14;

    public override bool IsText => false;

    public override long BaseBytes => 64 << 10;

    public override long BytesPerByte => 16;

    protected override bool Read(byte[] input)
    {
        if (BroadcastChunk.FromBytes(input) is not { } broadcast)
        {
            Require(input.Length < BroadcastChunk.FixedBytes, "only a chunk that is too short is none");
            return false;
        }

        if (broadcast.TimeReference >= 0 && broadcast.CodingHistory.Length <= BroadcastChunk.MaxBytes - BroadcastChunk.FixedBytes)
        {
            var again = BroadcastChunk.ToBytes(broadcast);
            Require(BroadcastChunk.ToBytes(BroadcastChunk.FromBytes(again)!).AsSpan().SequenceEqual(again), "a chunk that is written again means the same");
        }

        return true;
    }
}
