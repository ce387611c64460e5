namespace DrumPrint.Flac;

/// <summary>Decodes what a predictor left over (RFC 9639, section 9.2.7).</summary>
internal static class FlacResidual
{
    private const int ShortParameterBits = 4;
    private const int LongParameterBits = 5;
    private const int RawBits = 5;

    /// <summary>Decodes the differences behind the first samples of a frame.</summary>
    /// <param name="bits">The stream.</param>
    /// <param name="order">How many samples stand in front.</param>
    /// <param name="samples">The frame.</param>
    /// <exception cref="FlacDamageException">They do not follow the format.</exception>
    public static void Read(FlacBits bits, int order, Span<long> samples)
    {
        var parameterBits = bits.Read(2) switch
        {
            0 => ShortParameterBits,
            1 => LongParameterBits,
            _ => throw new FlacDamageException("its differences are coded in a way that is kept for later"),
        };
        var partitions = 1 << (int)bits.Read(4);
        var length = samples.Length / partitions;
        if (length * partitions != samples.Length || length < order)
        {
            throw new FlacDamageException("its parts are no whole numbers of samples");
        }

        var escape = (1 << parameterBits) - 1;
        for (var p = 0; p < partitions; p++)
        {
            var part = samples.Slice(p * length, length)[(p == 0 ? order : 0)..];
            var parameter = (int)bits.Read(parameterBits);
            if (parameter == escape)
            {
                Plain(bits, part);
            }
            else
            {
                Rice(bits, parameter, part);
            }
        }
    }

    private static void Plain(FlacBits bits, Span<long> part)
    {
        var count = (int)bits.Read(RawBits);
        foreach (ref var difference in part)
        {
            difference = bits.ReadSigned(count);
        }
    }

    // Folded: 0, −1, 1, −2, 2 … become 0, 1, 2, 3, 4 …; the upper bits are counted in zeros.
    private static void Rice(FlacBits bits, int parameter, Span<long> part)
    {
        var most = uint.MaxValue >> parameter;
        foreach (ref var difference in part)
        {
            var folded = ((ulong)bits.ReadUnary(most) << parameter) | bits.Read(parameter);
            difference = (long)(folded >> 1) ^ -(long)(folded & 1);
        }
    }
}
