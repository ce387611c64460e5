namespace DrumPrint.Flac;

/// <summary>Decodes one channel of one frame (RFC 9639, section 9.2).</summary>
internal static class FlacSubframe
{
    private const int Constant = 0;
    private const int Verbatim = 1;
    private const int Fixed = 8;
    private const int MostFixed = 12;
    private const int Linear = 32;
    private const int MostOrder = 32;

    // Predictors of section 9.2.5, the nearest sample first.
    private static readonly int[][] FixedCoefficients = [[], [1], [2, -1], [3, -3, 1], [4, -6, 4, -1]];

    /// <summary>Decodes the next channel.</summary>
    /// <param name="bits">The stream.</param>
    /// <param name="depth">Bits of a sample, 4 to 33.</param>
    /// <param name="samples">Where they go, as many as the frame has.</param>
    /// <exception cref="FlacDamageException">It does not follow the format.</exception>
    public static void Read(FlacBits bits, int depth, Span<long> samples)
    {
        if (bits.Read(1) != 0)
        {
            throw new FlacDamageException("a channel does not begin with a zero");
        }

        var kind = (int)bits.Read(6);
        var wasted = bits.Read(1) == 0 ? 0 : (int)bits.ReadUnary((uint)depth) + 1;
        depth -= wasted;
        if (depth < 1)
        {
            throw new FlacDamageException("a channel leaves no bits for its samples");
        }

        switch (kind)
        {
            case Constant:
                samples.Fill(bits.ReadSigned(depth));
                break;
            case Verbatim:
                Take(bits, depth, samples);
                break;
            case >= Fixed and <= MostFixed:
                ReadFixed(bits, depth, kind - Fixed, samples);
                break;
            case >= Linear:
                ReadLinear(bits, depth, kind - Linear + 1, samples);
                break;
            default:
                throw new FlacDamageException("a channel is of a kind that is kept for later");
        }

        Check(samples, depth);
        if (wasted > 0)
        {
            foreach (ref var sample in samples)
            {
                sample <<= wasted;
            }
        }
    }

    /// <summary>Makes sure that all samples are of so many bits.</summary>
    public static void Check(ReadOnlySpan<long> samples, int depth)
    {
        var all = 0L;
        foreach (var sample in samples)
        {
            all |= sample ^ (sample >> 63);
        }

        if (all >> (depth - 1) != 0)
        {
            throw new FlacDamageException("a sample is larger than the file's bits hold");
        }
    }

    private static void ReadFixed(FlacBits bits, int depth, int order, Span<long> samples)
    {
        Take(bits, depth, samples[..Fitting(order, samples.Length)]);
        FlacResidual.Read(bits, order, samples);
        Predict(samples, FixedCoefficients[order], 0);
    }

    private static void ReadLinear(FlacBits bits, int depth, int order, Span<long> samples)
    {
        Take(bits, depth, samples[..Fitting(order, samples.Length)]);
        var precision = (int)bits.Read(4) + 1;
        var shift = (int)bits.ReadSigned(5);
        if (precision == 16 || shift < 0)
        {
            throw new FlacDamageException("a predictor has a precision or a shift that is not allowed");
        }

        Span<int> coefficients = stackalloc int[MostOrder];
        coefficients = coefficients[..order];
        foreach (ref var coefficient in coefficients)
        {
            coefficient = (int)bits.ReadSigned(precision);
        }

        FlacResidual.Read(bits, order, samples);
        Predict(samples, coefficients, shift);
    }

    private static int Fitting(int order, int samples) =>
        order <= samples ? order : throw new FlacDamageException("a predictor is longer than the frame");

    private static void Take(FlacBits bits, int depth, Span<long> samples)
    {
        foreach (ref var sample in samples)
        {
            sample = bits.ReadSigned(depth);
        }
    }

    // Behind the first samples stand the differences, and each becomes its sample. Products of 33 and 15 bits fit 64, 32 of them too.
    private static void Predict(Span<long> samples, ReadOnlySpan<int> coefficients, int shift)
    {
        for (var n = coefficients.Length; n < samples.Length; n++)
        {
            var past = samples.Slice(n - coefficients.Length, coefficients.Length);
            var sum = 0L;
            for (int i = 0, at = past.Length - 1; i < coefficients.Length; i++, at--)
            {
                sum += coefficients[i] * past[at];
            }

            samples[n] += sum >> shift;
        }
    }
}
