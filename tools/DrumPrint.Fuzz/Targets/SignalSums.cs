using System.Buffers.Binary;
using System.Text.Json;
using DrumPrint.Store;

namespace DrumPrint.Fuzz.Targets;

/// <summary>Puts right the sums of a kept signal, wherever its own lengths say they are.</summary>
internal static class SignalSums
{
    public static byte[] PutRight(byte[] input, StoreSums store)
    {
        var bytes = (byte[])input.Clone();
        var at = SignalLayout.Mark.Length + SignalLayout.SaltBytes;
        if (bytes.Length < at + sizeof(int))
        {
            return bytes;
        }

        using var sums = store.ForFile(bytes.AsSpan(SignalLayout.Mark.Length, SignalLayout.SaltBytes));
        long headerBytes = BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(at));
        at += sizeof(int);
        if (!Put(bytes, at, headerBytes, sums, SignalLayout.HeaderNumber) || Header(bytes, at, (int)headerBytes) is not { } header)
        {
            return bytes;
        }

        var offset = at + headerBytes + SignalLayout.SumBytes;
        for (var frame = 0L; frame < header.Frames; frame += SignalLayout.PieceFrames)
        {
            var piece = Math.Min(SignalLayout.PieceFrames, header.Frames - frame) * header.Channels * sizeof(double);
            if (!Put(bytes, offset, piece, sums, frame / SignalLayout.PieceFrames))
            {
                return bytes;
            }

            offset += piece + SignalLayout.SumBytes;
        }

        if (offset + sizeof(int) <= bytes.Length)
        {
            Put(bytes, offset + sizeof(int), BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan((int)offset)), sums, SignalLayout.TracesNumber);
        }

        return bytes;
    }

    // False where the piece or its sum does not lie in the file.
    private static bool Put(byte[] bytes, long at, long count, PieceSums sums, long number)
    {
        if (count < 0 || at + count + SignalLayout.SumBytes > bytes.Length)
        {
            return false;
        }

        sums.Of(number, bytes.AsSpan((int)at, (int)count), bytes.AsSpan((int)(at + count), SignalLayout.SumBytes));
        return true;
    }

    private static SignalHeader? Header(byte[] bytes, int at, int count)
    {
        try
        {
            return SignalHeader.Parse(bytes.AsMemory(at, count));
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or KeyNotFoundException or FormatException)
        {
            return null;
        }
    }
}
