using System.Security.Cryptography;

namespace DrumPrint.Tests.Audio;

/// <summary>How one channel of a frame is coded.</summary>
internal sealed record FlacCoding(string Kind, int Order = 0)
{
    public int[] Coefficients { get; init; } = [];

    public int Shift { get; init; }

    public int Precision { get; init; } = 15;

    public int PartitionOrder { get; init; }

    /// <summary>Bits that are written plainly; −1 for the highest partitions coded as differences are.</summary>
    public bool IsEscaped { get; init; }

    public bool IsLongParameter { get; init; }

    public int Wasted { get; init; }
}

/// <summary>Writes FLAC as RFC 9639 describes it, plainly and bit by bit, in every form the format has. It shares nothing with the reader:
/// checksums by long division, numbers from lists of bits.</summary>
internal sealed class FlacStream
{
    private readonly List<bool> _bits = [];

    public required int Bits { get; init; }

    public int RateHz { get; init; } = 48000;

    /// <summary>Lengths of the frames, repeated; the last is cut.</summary>
    public int[] Blocks { get; init; } = [64];

    public bool IsVariable { get; init; }

    /// <summary>0 to 7 each channel by itself; 8 left and side, 9 side and right, 10 middle and side.</summary>
    public int Sides { get; init; } = -1;

    /// <summary>How channels are coded, by frame and channel.</summary>
    public Func<int, int, FlacCoding> Coding { get; init; } = (_, _) => new FlacCoding("verbatim");

    public long? SaysSamples { get; init; }

    public bool HasMd5 { get; init; } = true;

    public byte[][] Chunks { get; init; } = [];

    public byte[] Write(long[][] channels)
    {
        var frames = channels[0].Length;
        var most = Math.Max(16, IsVariable ? Blocks.Max() : Blocks[0]);
        var bytes = new List<byte>(FileBytes.Ascii("fLaC"));
        bytes.AddRange(Block(0, Chunks.Length == 0, [
            .. FileBytes.Big((ulong)(IsVariable ? Math.Max(16, Blocks.Min()) : most), 2),
            .. FileBytes.Big((ulong)most, 2),
            .. new byte[6],
            .. FileBytes.Big(((ulong)RateHz << 44) | ((ulong)(channels.Length - 1) << 41) | ((ulong)(Bits - 1) << 36) | (ulong)(SaysSamples ?? frames), 8),
            .. HasMd5 ? Md5(channels) : new byte[16],
        ]));
        for (var n = 0; n < Chunks.Length; n++)
        {
            bytes.AddRange(Block(2, n == Chunks.Length - 1, [.. FileBytes.Ascii("riff"), .. Chunks[n]]));
        }

        for (int frame = 0, at = 0; at < frames; frame++)
        {
            var length = Math.Min(Blocks[frame % Blocks.Length], frames - at);
            bytes.AddRange(Frame(frame, at, [.. channels.Select(c => c[at..(at + length)])]));
            at += length;
        }

        return [.. bytes];
    }

    private static byte[] Block(int kind, bool isLast, byte[] contents) => [(byte)(kind | (isLast ? 0x80 : 0)), .. FileBytes.Big((ulong)contents.Length, 3), .. contents];

    private byte[] Md5(long[][] channels)
    {
        var width = (Bits + 7) / 8;
#pragma warning disable CA5351 // What the format has.
        return MD5.HashData([.. Enumerable.Range(0, channels[0].Length).SelectMany(n => channels.SelectMany(c => FileBytes.Little((ulong)c[n], width)))]);
#pragma warning restore CA5351
    }

    private byte[] Frame(int number, int first, long[][] channels)
    {
        _bits.Clear();
        Put(0b111111111111100, 15);
        Put(IsVariable ? 1 : 0, 1);
        var length = channels[0].Length;
        Put(length <= 256 ? 6 : 7, 4);
        Put(0, 4);
        Put(Sides >= 0 ? Sides : channels.Length - 1, 4);
        Put(0, 3);
        Put(0, 1);
        PutNumber(IsVariable ? first : number);
        Put(length - 1, length <= 256 ? 8 : 16);
        Put(Remainder(Bytes(), 0x107, 8), 8);
        var coded = Sides switch
        {
            8 => [channels[0], Difference(channels)],
            9 => [Difference(channels), channels[1]],
            10 => [[.. channels[0].Zip(channels[1], (l, r) => (l + r) >> 1)], Difference(channels)],
            _ => channels,
        };
        for (var c = 0; c < coded.Length; c++)
        {
            var isSide = Sides switch { 8 or 10 => c == 1, 9 => c == 0, _ => false };
            PutChannel(coded[c], Bits + (isSide ? 1 : 0), Coding(number, c));
        }

        while (_bits.Count % 8 != 0)
        {
            Put(0, 1);
        }

        Put(Remainder(Bytes(), 0x18005, 16), 16);
        return Bytes();
    }

    private static long[] Difference(long[][] channels) => [.. channels[0].Zip(channels[1], (l, r) => l - r)];

    private void PutChannel(long[] samples, int depth, FlacCoding coding)
    {
        samples = [.. samples.Select(s => s >> coding.Wasted)];
        depth -= coding.Wasted;
        var kind = coding.Kind switch
        {
            "constant" => 0,
            "verbatim" => 1,
            "fixed" => 8 + coding.Order,
            _ => 31 + coding.Order,
        };
        Put(0, 1);
        Put(kind, 6);
        Put(coding.Wasted > 0 ? 1 : 0, 1);
        if (coding.Wasted > 0)
        {
            Put(1, coding.Wasted);
        }

        switch (coding.Kind)
        {
            case "constant":
                Put(samples[0], depth);
                return;
            case "verbatim":
                Array.ForEach(samples, s => Put(s, depth));
                return;
        }

        Array.ForEach(samples[..coding.Order], s => Put(s, depth));
        int[] coefficients = coding.Kind == "fixed"
            ? coding.Order switch { 0 => [], 1 => [1], 2 => [2, -1], 3 => [3, -3, 1], _ => [4, -6, 4, -1] }
            : coding.Coefficients;
        if (coding.Kind != "fixed")
        {
            Put(coding.Precision - 1, 4);
            Put(coding.Shift, 5);
            Array.ForEach(coefficients, c => Put(c, coding.Precision));
        }

        var left = Enumerable.Range(0, samples.Length).Select(n => n < coding.Order ? 0 : samples[n] - (coefficients.Select((c, i) => c * samples[n - 1 - i]).Sum() >> coding.Shift)).ToArray();
        PutResidual(left, coding);
    }

    private void PutResidual(long[] left, FlacCoding coding)
    {
        Put(coding.IsLongParameter ? 1 : 0, 2);
        Put(coding.PartitionOrder, 4);
        var parts = 1 << coding.PartitionOrder;
        var length = left.Length / parts;
        var width = coding.IsLongParameter ? 5 : 4;
        for (var p = 0; p < parts; p++)
        {
            var part = left[(p * length)..((p + 1) * length)][(p == 0 ? coding.Order : 0)..];
            if (coding.IsEscaped)
            {
                var need = part.Length == 0 || part.All(d => d == 0) ? 0 : Enumerable.Range(1, 31).First(b => part.All(d => d >= -(1L << (b - 1)) && d < 1L << (b - 1)));
                Put((1 << width) - 1, width);
                Put(need, 5);
                Array.ForEach(part, d => Put(d, need));
                continue;
            }

            var mean = part.Length == 0 ? 0 : part.Average(d => Math.Abs((double)d));
            var parameter = Math.Clamp((int)Math.Log2(mean + 1), 0, (1 << width) - 2);
            Put(parameter, width);
            foreach (var d in part)
            {
                var folded = d >= 0 ? 2 * d : (-2 * d) - 1;
                for (var zeros = folded >> parameter; zeros > 0; zeros--)
                {
                    Put(0, 1);
                }

                Put(1, 1);
                Put(folded, parameter);
            }
        }
    }

    private void PutNumber(long number)
    {
        if (number < 0x80)
        {
            Put(number, 8);
            return;
        }

        var more = Enumerable.Range(1, 6).First(m => number < 1L << ((6 * m) + 6 - m));
        Put(((0xFF00 >> (more + 1)) & 0xFF) + (number >> (6 * more)), 8);
        for (var n = more - 1; n >= 0; n--)
        {
            Put(0x80 | ((number >> (6 * n)) & 0x3F), 8);
        }
    }

    private void Put(long value, int count)
    {
        for (var n = count - 1; n >= 0; n--)
        {
            _bits.Add(((value >> n) & 1) != 0);
        }
    }

    private byte[] Bytes() => [.. Enumerable.Range(0, _bits.Count / 8).Select(b => (byte)Enumerable.Range(0, 8).Sum(n => _bits[(8 * b) + n] ? 1 << (7 - n) : 0))];

    private static int Remainder(byte[] bytes, int polynomial, int width)
    {
        var left = 0;
        foreach (var bit in bytes.Concat(new byte[width / 8]).SelectMany(b => Enumerable.Range(0, 8).Select(n => (b >> (7 - n)) & 1)))
        {
            left = (left << 1) | bit;
            left = (left >> width) != 0 ? left ^ polynomial : left;
        }

        return left;
    }
}
