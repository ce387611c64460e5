using DrumPrint.Dsp;

namespace DrumPrint.Comparing.Measuring;

/// <summary>A stretch of sound in memory.</summary>
/// <param name="RateHz">Sample rate.</param>
/// <param name="Channels">One array for each of one or two channels.</param>
internal sealed record Sound(int RateHz, double[][] Channels)
{
    public int Frames => Channels[0].Length;

    public AudioBlock Block => new(Channels, 0, Frames);

    /// <summary>Mean power over all channels.</summary>
    public double Power => Levels.Power(Channels);

    public Sound Times(double gain) => this with { Channels = Array.ConvertAll(Channels, c => Array.ConvertAll(c, x => x * gain)) };

    public Sound Slice(int start, int frames) => this with { Channels = Array.ConvertAll(Channels, c => c.AsSpan(start, frames).ToArray()) };

    /// <summary>The same sound with two sides: a mono sound is heard on both.</summary>
    public Sound AsStereo() => Channels.Length == 2 ? this : this with { Channels = [Channels[0], Channels[0]] };
}
