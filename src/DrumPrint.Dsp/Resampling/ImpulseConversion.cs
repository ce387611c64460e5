namespace DrumPrint.Dsp.Resampling;

/// <summary>Brings an impulse response to the rate of a render so that it answers as it did at its own.</summary>
/// <remarks>
/// The samples of an impulse response stand for what a frame's worth of sound leaves behind. So they change with the length of a
/// frame as well. Their sum, the gain at 0 Hz, stays. What the conversion spreads ahead of the first frame and behind the last is
/// kept. Without it a response that begins at once would lose half of its first sample.
/// </remarks>
public static class ImpulseConversion
{
    /// <summary>The impulse at a rate.</summary>
    /// <param name="name">The name the chain gives it.</param>
    /// <param name="layout">Meaning of the channels.</param>
    /// <param name="channels">1, 2 or 4 arrays of the same length; not written to.</param>
    /// <param name="fromHz">Their rate, 8 to 384 kHz.</param>
    /// <param name="toHz">The rate of the render, 8 to 384 kHz.</param>
    public static Impulse Convert(string name, ImpulseLayout layout, double[][] channels, int fromHz, int toHz)
    {
        ArgumentNullException.ThrowIfNull(channels);
        if (fromHz == toHz)
        {
            return new Impulse(name, toHz, layout, channels);
        }

        var reach = RateFilter.Reach(fromHz, toHz);
        var (silence, shift) = Lead(reach, fromHz, toHz);
        var frames = (int)RateConverter.OutputFrames(channels[0].Length, fromHz, toHz) + reach;
        var converted = Array.ConvertAll(channels, c => Convert(c, silence, fromHz, toHz).AsSpan(shift - reach, reach + frames).ToArray());

        // A file that begins with silence needs nothing ahead of it.
        var isSilent = Array.TrueForAll(converted, c => c.AsSpan(0, reach).IndexOfAnyExcept(0.0) < 0);
        return isSilent
            ? new Impulse(name, toHz, layout, Array.ConvertAll(converted, c => c[reach..]))
            : new Impulse(name, toHz, layout, converted) { LeadFrames = reach };
    }

    private static double[] Convert(double[] channel, int silence, int fromHz, int toHz)
    {
        var behind = (2 * RateFilter.Reach(toHz, fromHz)) + 2;
        var padded = new double[silence + channel.Length + behind];
        var scale = (double)fromHz / toHz;
        for (var n = 0; n < channel.Length; n++)
        {
            padded[silence + n] = channel[n] * scale;
        }

        return RateConverter.Convert(padded, fromHz, toHz);
    }

    // Silence ahead that is a whole number of frames at both rates, and long enough.
    private static (int From, int To) Lead(int reach, int fromHz, int toHz)
    {
        var common = RateConverter.CommonDivisor(fromHz, toHz);
        var (from, to) = (fromHz / common, toHz / common);
        var times = (reach + to - 1) / to;
        return (times * from, times * to);
    }
}
