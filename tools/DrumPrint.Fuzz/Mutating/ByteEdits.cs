using System.Buffers.Binary;

namespace DrumPrint.Fuzz.Mutating;

/// <summary>Changes that know nothing of a format but that it may have names of four characters with a length behind them.</summary>
internal sealed class ByteEdits(FuzzRandom random)
{
    private const int LongestBlock = 256;
    private const int MostCopies = 64;

    // Where arithmetic goes wrong.
    private static readonly long[] Numbers =
    [
        0, 1, 2, 3, 4, 7, 8, 15, 16, 17, 24, 25, 31, 32, 33, 40, 64, 127, 128, 255, 256, 1023, 1024, 4096, 32767, 32768, 65535, 65536, 0x7F_FFFF, 0x80_0000,
        int.MaxValue, int.MinValue, uint.MaxValue, uint.MaxValue - 1, long.MaxValue, long.MinValue, long.MaxValue / 2, -1, -2, -8,
    ];

    public byte[] Step(byte[] input, byte[] other) => random.Below(12) switch
    {
        0 or 1 => Flip(input),
        2 => Set(input),
        3 or 4 => Number(input),
        5 or 6 => Length(input),
        7 => Cut(input),
        8 => Repeat(input),
        9 => Insert(input, other),
        10 => Overwrite(input, other),
        _ => random.Below(3) == 0 ? End(input) : Splice(input, other),
    };

    private byte[] Flip(byte[] input)
    {
        var copy = (byte[])input.Clone();
        if (copy.Length > 0)
        {
            copy[random.Below(copy.Length)] ^= (byte)(1 << random.Below(8));
        }

        return copy;
    }

    private byte[] Set(byte[] input)
    {
        var copy = (byte[])input.Clone();
        if (copy.Length > 0)
        {
            copy[random.Below(copy.Length)] = (byte)random.Next();
        }

        return copy;
    }

    private byte[] Number(byte[] input)
    {
        var width = 1 << random.Below(4);
        return input.Length < width ? input : Put(input, random.Below(input.Length - width + 1), width, random.Below(4) == 0 ? (long)random.Next() : random.Of(Numbers) + random.Below(3) - 1);
    }

    // The four bytes behind a name of four characters.
    private byte[] Length(byte[] input)
    {
        var from = random.Below(input.Length);
        for (var i = 0; i + 8 <= input.Length; i++)
        {
            var at = (from + i) % (input.Length - 7);
            if (input.AsSpan(at, 4).ContainsAnyExceptInRange((byte)' ', (byte)'~'))
            {
                continue;
            }

            var left = input.Length - at - 8;
            return Put(input, at + 4, 4, random.Below(3) switch
            {
                0 => random.Of(Numbers),
                1 => left + random.Below(5) - 2,
                _ => random.Below(left + 1),
            });
        }

        return Number(input);
    }

    private byte[] Cut(byte[] input)
    {
        var (at, count) = Block(input);
        return [.. input.AsSpan(0, at), .. input.AsSpan(at + count)];
    }

    private byte[] Repeat(byte[] input)
    {
        var (at, count) = Block(input);
        var copies = random.Below(8) == 0 ? 1 + random.Below(MostCopies) : 1;
        var all = new byte[input.Length + (copies * count)];
        input.AsSpan(0, at + count).CopyTo(all);
        for (var n = 0; n < copies; n++)
        {
            input.AsSpan(at, count).CopyTo(all.AsSpan(at + ((n + 1) * count)));
        }

        input.AsSpan(at + count).CopyTo(all.AsSpan(at + ((copies + 1) * count)));
        return all;
    }

    private byte[] Insert(byte[] input, byte[] other)
    {
        var (from, count) = Block(other);
        var at = random.Below(input.Length + 1);
        return [.. input.AsSpan(0, at), .. other.AsSpan(from, count), .. input.AsSpan(at)];
    }

    private byte[] Overwrite(byte[] input, byte[] other)
    {
        var (from, count) = Block(other);
        var copy = (byte[])input.Clone();
        var at = random.Below(copy.Length + 1);
        other.AsSpan(from, Math.Min(count, copy.Length - at)).CopyTo(copy.AsSpan(at));
        return copy;
    }

    private byte[] Splice(byte[] input, byte[] other) => [.. input.AsSpan(0, random.Below(input.Length + 1)), .. other.AsSpan(random.Below(other.Length + 1))];

    private byte[] End(byte[] input) => input[..random.Below(input.Length + 1)];

    private (int At, int Count) Block(byte[] input)
    {
        var at = random.Below(input.Length);
        return (at, Math.Min(1 + random.Below(random.Below(4) == 0 ? LongestBlock : 16), input.Length - at));
    }

    private byte[] Put(byte[] input, int at, int width, long number)
    {
        var copy = (byte[])input.Clone();
        Span<byte> bytes = stackalloc byte[sizeof(long)];
        if (random.Below(2) == 0)
        {
            BinaryPrimitives.WriteInt64LittleEndian(bytes, number);
            bytes[..width].CopyTo(copy.AsSpan(at));
        }
        else
        {
            BinaryPrimitives.WriteInt64BigEndian(bytes, number);
            bytes[^width..].CopyTo(copy.AsSpan(at));
        }

        return copy;
    }
}
