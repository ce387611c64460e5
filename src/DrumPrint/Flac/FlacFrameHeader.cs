namespace DrumPrint.Flac;

/// <summary>What stands in front of a frame (RFC 9639, section 9.1).</summary>
/// <param name="IsVariable">Whether the stream's frames differ in length, so that each is numbered by its first sample.</param>
/// <param name="Samples">Samples per channel.</param>
/// <param name="Sides">How the channels are coded: 0 to 7 each by itself, 8 left and side, 9 side and right, 10 middle and side.</param>
/// <param name="Number">Number of the frame, or of its first sample.</param>
internal readonly record struct FlacFrameHeader(bool IsVariable, int Samples, int Sides, long Number)
{
    private const uint Mark = 0x7FFC; // 15 bits

    private static readonly int[] Rates = [0, 88200, 176400, 192000, 8000, 16000, 22050, 24000, 32000, 44100, 48000, 96000];
    private static readonly int[] Depths = [0, 8, 12, 0, 16, 20, 24, 32];

    /// <summary>Reads it and holds it against what the stream says.</summary>
    /// <exception cref="FlacDamageException">It does not follow the format, or is of another stream.</exception>
    public static FlacFrameHeader Read(FlacBits bits, FlacStreamInfo stream)
    {
        byte crc = 0;
        uint Byte()
        {
            var next = (byte)bits.Read(8);
            crc = FlacCrc.Add8(crc, next);
            return next;
        }

        var first = (Byte() << 8) | Byte();
        if (first >> 1 != Mark)
        {
            throw new FlacDamageException("it does not begin with the mark of a frame");
        }

        var (sizes, kinds) = (Byte(), Byte());
        var (size, rate, sides, depth) = (sizes >> 4, sizes & 15, kinds >> 4, (kinds >> 1) & 7);
        if (size == 0 || rate == 15 || sides > 10 || depth == 3 || (kinds & 1) != 0)
        {
            throw new FlacDamageException("its header holds a value that is kept for later");
        }

        var number = ReadNumber(Byte);
        var samples = size switch
        {
            1 => 192,
            <= 5 => 144 << (int)size,
            6 => (int)Byte() + 1,
            7 => (int)((Byte() << 8) | Byte()) + 1,
            _ => 1 << (int)size,
        };
        var rateHz = rate switch
        {
            0 => stream.RateHz,
            12 => 1000 * (int)Byte(),
            13 => (int)((Byte() << 8) | Byte()),
            14 => 10 * (int)((Byte() << 8) | Byte()),
            _ => Rates[rate],
        };
        var sum = crc;
        if (bits.Read(8) != sum)
        {
            throw new FlacDamageException("the checksum of its header (CRC-8) does not match");
        }

        var channels = sides < 8 ? (int)sides + 1 : 2;
        if (rateHz != stream.RateHz || channels != stream.Channels || (depth != 0 && Depths[depth] != stream.Bits) || samples > stream.MostBlock)
        {
            throw new FlacDamageException("its rate, channels, bits or length are not those of the file's header");
        }

        return new FlacFrameHeader((first & 1) != 0, samples, (int)sides, number);
    }

    // Up to 36 bits, in the way of UTF-8 (section 9.1.5).
    private static long ReadNumber(Func<uint> next)
    {
        var first = next();
        if (first < 0x80)
        {
            return first;
        }

        var more = first switch
        {
            >= 0xC0 and < 0xE0 => 1,
            >= 0xE0 and < 0xF0 => 2,
            >= 0xF0 and < 0xF8 => 3,
            >= 0xF8 and < 0xFC => 4,
            0xFC or 0xFD => 5,
            0xFE => 6,
            _ => throw new FlacDamageException("its number is not coded as it should be"),
        };
        var number = (long)(first & ((1u << (6 - more)) - 1));
        for (; more > 0; more--)
        {
            var part = next();
            number = part >> 6 == 2 ? (number << 6) | (part & 0x3F) : throw new FlacDamageException("its number is not coded as it should be");
        }

        return number;
    }
}
