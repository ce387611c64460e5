using DrumPrint.Dsp;

namespace DrumPrint.Comparing.Measuring;

/// <summary>A stretch of sound in memory.</summary>
/// <param name="rateHz">Sample rate.</param>
/// <param name="channels">One array for each of one or two channels.</param>
internal sealed class Sound(int rateHz, double[][] channels)
{
    public int RateHz { get; } = rateHz;

    public double[][] Channels { get; } = channels;

    public int Frames => Channels[0].Length;

    public AudioBlock Block => new(Channels, 0, Frames);

    /// <summary>Mean power over all channels.</summary>
    public double Power => Levels.Power(Channels);

    public Sound Times(double gain) => new(RateHz, Array.ConvertAll(Channels, c => Array.ConvertAll(c, x => x * gain)));

    public Sound Slice(int start, int frames) => new(RateHz, Array.ConvertAll(Channels, c => c.AsSpan(start, frames).ToArray()));

    /// <summary>The same sound with two sides: a mono sound is heard on both.</summary>
    public Sound AsStereo() => Channels.Length == 2 ? this : new Sound(RateHz, [Channels[0], Channels[0]]);

    /// <summary>Both sides as they are heard and measured against each other. A mono side beside a stereo one plays on both
    /// sides, at its level on each. So it is 3 dB louder than alone (ITU-R BS.1770-5 adds the powers of the channels). Two
    /// mono sides stay mono.</summary>
    public static (Sound A, Sound B) Together(Sound a, Sound b) =>
        a.Channels.Length == b.Channels.Length ? (a, b) : (a.AsStereo(), b.AsStereo());
}
