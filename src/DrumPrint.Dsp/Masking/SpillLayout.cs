using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Masking;

/// <summary>What all parts of one processor share.</summary>
/// <param name="Frames">How signals are cut.</param>
/// <param name="Bands">Bands in which ways count as one.</param>
/// <param name="Fft">Transform of a frame.</param>
/// <param name="StepsAhead">Steps by which a frame comes in before it is worked on, 1 or more.</param>
internal sealed record SpillLayout(SpillFrames Frames, SpillBands Bands, RealFft Fft, int StepsAhead)
{
    /// <summary>Steps over which powers are averaged before they are compared: with the frame itself more than any delay between two
    /// microphones of a kit.</summary>
    public const int RecentSteps = 4;

    /// <summary>The layout for a rate.</summary>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="aheadS">Seconds by which a frame comes in before it is worked on.</param>
    public static SpillLayout For(int sampleRate, double aheadS)
    {
        var frames = new SpillFrames(sampleRate);
        return new SpillLayout(frames, new SpillBands(frames.Bins), new RealFft(frames.Transform), Math.Max(1, frames.Steps(aheadS)));
    }
}
