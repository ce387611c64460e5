using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Measures the power of all channels that one source side is heard in.</summary>
internal delegate double SourcePower(ReadOnlySpan<double[]> side);

/// <summary>Cuts, fades, shortens and levels impulse responses, on copies.</summary>
internal static class ImpulseShape
{
    // How near a shortened decay comes to its target, and how often the window is corrected to get there.
    private const double DecayTolerance = 0.001;
    private const int DecayRounds = 40;
    private const double NepersPer60Db = 6.907755278982137;

    /// <summary>Frames from <paramref name="start"/> up to but not including <paramref name="end"/>.</summary>
    public static double[][] Cut(double[][] channels, int start, int end) => Array.ConvertAll(channels, c => c[start..end]);

    /// <summary>Fades the last frames out along half a cosine.</summary>
    public static void FadeOut(double[][] channels, int frames)
    {
        var length = channels[0].Length;
        frames = Math.Min(frames, length);
        for (var n = 0; n < frames; n++)
        {
            var gain = 0.5 + (0.5 * Elementary.Cos(Math.PI * (n + 1) / (frames + 1)));
            foreach (var channel in channels)
            {
                channel[length - frames + n] *= gain;
            }
        }
    }

    /// <summary>Lays a falling exponential over the response from its onset, so that its measured decay becomes the target.</summary>
    /// <returns>The decay reached, in seconds; null when none can be measured.</returns>
    public static double? ShortenDecay(double[][] channels, int sampleRate, double targetSeconds)
    {
        var original = Array.ConvertAll(channels, c => (double[])c.Clone());
        var onset = DecayTime.Onset(channels);
        var decay = DecayTime.T30(channels, sampleRate);
        var rate = 0.0;
        for (var round = 0; round < DecayRounds && decay is { } now && Math.Abs(now - targetSeconds) > DecayTolerance * targetSeconds; round++)
        {
            rate += NepersPer60Db * ((1 / targetSeconds) - (1 / now)) / sampleRate;
            for (var n = onset; n < channels[0].Length; n++)
            {
                var gain = Elementary.Exp(-rate * (n - onset));
                for (var c = 0; c < channels.Length; c++)
                {
                    channels[c][n] = original[c][n] * gain;
                }
            }

            decay = DecayTime.T30(channels, sampleRate);
        }

        return decay;
    }

    /// <summary>Gives what comes before a time and what comes after a level each, on one cosine from the one to the other.</summary>
    /// <param name="channels">The response.</param>
    /// <param name="splitFrame">Where one has half gone over into the other.</param>
    /// <param name="halfFrames">From where to there, and from there to where.</param>
    /// <param name="early">Gain before.</param>
    /// <param name="late">Gain after.</param>
    public static void Balance(double[][] channels, int splitFrame, int halfFrames, double early, double late)
    {
        for (var n = 0; n < channels[0].Length; n++)
        {
            var at = Math.Clamp((double)(n - splitFrame) / Math.Max(1, halfFrames), -1, 1);
            var gain = early + ((late - early) * (0.5 + (0.5 * Elementary.Sin(Math.PI / 2 * at))));
            foreach (var channel in channels)
            {
                channel[n] *= gain;
            }
        }
    }

    /// <summary>Turns the response round, so that its end comes first.</summary>
    public static void Reverse(double[][] channels)
    {
        foreach (var channel in channels)
        {
            channel.AsSpan().Reverse();
        }
    }

    /// <summary>Brings what leaves each source side, over all receiving channels, to a power of 1.</summary>
    /// <param name="channels">The response.</param>
    /// <param name="channelsPerSource">How many channels belong to one source side.</param>
    /// <param name="power">How the power of such channels is measured.</param>
    public static void LevelSources(double[][] channels, int channelsPerSource, SourcePower power)
    {
        for (var source = 0; source < channels.Length; source += channelsPerSource)
        {
            var side = channels.AsSpan(source, channelsPerSource);
            var measured = power(side);
            if (measured > 0)
            {
                Scale(side, 1 / Math.Sqrt(measured));
            }
        }
    }

    /// <summary>Power that comes out for white noise of power 1.</summary>
    public static double Energy(ReadOnlySpan<double[]> side)
    {
        var energy = 0.0;
        foreach (var channel in side)
        {
            foreach (var sample in channel)
            {
                energy += sample * sample;
            }
        }

        return energy;
    }

    /// <summary>Brings the largest sample of all channels to 1.</summary>
    public static void LevelPeak(double[][] channels)
    {
        var peak = 0.0;
        foreach (var channel in channels)
        {
            foreach (var sample in channel)
            {
                peak = Math.Max(peak, Math.Abs(sample));
            }
        }

        if (peak > 0)
        {
            Scale(channels, 1 / peak);
        }
    }

    public static void Scale(ReadOnlySpan<double[]> channels, double gain)
    {
        foreach (var channel in channels)
        {
            foreach (ref var sample in channel.AsSpan())
            {
                sample *= gain;
            }
        }
    }
}
