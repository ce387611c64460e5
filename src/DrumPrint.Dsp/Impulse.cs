namespace DrumPrint.Dsp;

/// <summary>What the channels of an impulse response stand for.</summary>
public enum ImpulseLayout
{
    /// <summary>One channel, applied to every channel of the input.</summary>
    Mono,

    /// <summary>Two channels: left with left, right with right; a mono input goes through both and becomes stereo.</summary>
    Stereo,

    /// <summary>Four channels, LL, LR, RL, RR: first letter the source side, second the receiving side.</summary>
    TrueStereo,
}

/// <summary>An impulse response at the rate of the render, ready for a processor.</summary>
/// <param name="Name">The name the chain gives it.</param>
/// <param name="SampleRate">Hertz.</param>
/// <param name="Layout">Meaning of the channels.</param>
/// <param name="Channels">1, 2 or 4 arrays of the same length; never written to.</param>
public sealed record Impulse(string Name, int SampleRate, ImpulseLayout Layout, double[][] Channels)
{
    /// <summary>Frames that lie ahead of the start: what a conversion between rates spread there. Times count from behind them. Below
    /// zero, that many frames of the file's start are not held.</summary>
    public int LeadFrames { get; init; }

    /// <summary>Frames from the first to the last, those ahead of the start counted as well.</summary>
    public int Frames => Channels[0].Length;
}
