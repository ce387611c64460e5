namespace DrumPrint.Dsp.Layering;

/// <summary>Takes out of a signal what goes on as it went before: the modes of a drum that still ring when the next hit comes.</summary>
/// <remarks>Source: J. P. Burg, "Maximum Entropy Spectral Analysis", 37th Meeting of the Society of Exploration Geophysicists, 1967 (from memory):
/// the linear prediction whose error, forwards and backwards, is least. What is left of that stretch is nearly white, which is what a
/// correlation wants of the noise around it.</remarks>
internal sealed class TailFilter
{
    /// <summary>Frames that it looks back: two for each mode, and some for what is no mode.</summary>
    public const int Order = 16;

    private const double Nothing = 1e-28;

    private readonly double[] _taps = new double[Order + 1];
    private readonly double[] _reversed = new double[Order + 1];
    private readonly double[] _forwards;
    private readonly double[] _backwards;

    /// <param name="frames">Length of what it learns from.</param>
    public TailFilter(int frames) => (_forwards, _backwards) = (new double[frames], new double[frames]);

    /// <summary>Learns from a stretch.</summary>
    public void Learn(ReadOnlySpan<double> stretch)
    {
        Array.Clear(_taps);
        _taps[0] = 1;
        stretch.CopyTo(_forwards);
        stretch.CopyTo(_backwards);
        for (var order = 1; order <= Order; order++)
        {
            if (!Lengthen(order, stretch.Length))
            {
                return;
            }
        }
    }

    /// <summary>Filters a stretch, from its frame <see cref="Order"/> on.</summary>
    public void Filter(ReadOnlySpan<double> from, Span<double> to)
    {
        for (var n = 0; n < to.Length; n++)
        {
            var sum = 0.0;
            for (var i = 0; i <= Order; i++)
            {
                sum += _taps[i] * from[n + Order - i];
            }

            to[n] = sum;
        }
    }

    // One reflection more; whether there was anything to reflect.
    private bool Lengthen(int order, int frames)
    {
        var (product, power) = (0.0, 0.0);
        for (var n = order; n < frames; n++)
        {
            product += _forwards[n] * _backwards[n - 1];
            power += (_forwards[n] * _forwards[n]) + (_backwards[n - 1] * _backwards[n - 1]);
        }

        if (!(power > Nothing))
        {
            return false;
        }

        var reflection = -2 * product / power;
        for (var n = frames - 1; n >= order; n--)
        {
            var (forward, backward) = (_forwards[n], _backwards[n - 1]);
            _forwards[n] = forward + (reflection * backward);
            _backwards[n] = backward + (reflection * forward);
        }

        for (var i = 0; i <= order; i++)
        {
            _reversed[i] = _taps[order - i];
        }

        for (var i = 0; i <= order; i++)
        {
            _taps[i] += reflection * _reversed[i];
        }

        return true;
    }
}
