using DrumPrint.Dsp.Filters;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>What a detector listens to: the key or the signal itself, through filters of its own.</summary>
/// <remarks>High- and low-pass are second-order Butterworth, 12 dB per octave.</remarks>
internal sealed class KeyInput
{
    private const int Order = 2;

    private readonly FilterCascade?[] _filters;
    private readonly bool _hearsMid;

    /// <param name="context">The render.</param>
    /// <param name="highPassHz">Corner of the high-pass; null for none.</param>
    /// <param name="lowPassHz">Corner of the low-pass; null for none.</param>
    /// <param name="hearsMid">Whether of two channels only what they have in common is heard.</param>
    /// <param name="more">Sections of more filters.</param>
    public KeyInput(ProcessorContext context, double? highPassHz, double? lowPassHz, bool hearsMid = false, params IReadOnlyList<BiquadCoefficients> more)
    {
        IsExternal = context.KeyChannels > 0;
        Channels = IsExternal ? context.KeyChannels : context.Format.Channels;
        _hearsMid = hearsMid && Channels == 2;
        Channels = _hearsMid ? 1 : Channels;
        var rate = context.Format.SampleRate;
        List<BiquadCoefficients> sections = [];
        if (highPassHz is { } high)
        {
            sections.AddRange(BiquadDesign.HighPass(high, Order, rate));
        }

        if (lowPassHz is { } low)
        {
            sections.AddRange(BiquadDesign.LowPass(low, Order, rate));
        }

        sections.AddRange(more);
        MemoryFrames = FilterTail.Frames(sections);
        _filters = new FilterCascade?[Channels];
        for (var channel = 0; channel < Channels && sections.Count > 0; channel++)
        {
            _filters[channel] = new FilterCascade(sections);
        }
    }

    /// <summary>Whether another signal is listened to.</summary>
    public bool IsExternal { get; }

    /// <summary>Channels listened to.</summary>
    public int Channels { get; }

    /// <summary>Frames over which the filters remember.</summary>
    public long MemoryFrames { get; }

    /// <summary>Copies a channel of what is listened to, filtered.</summary>
    public void Read(AudioBlock block, AudioBlock key, int channel, Span<double> samples)
    {
        var heard = IsExternal ? key : block;
        heard[channel].CopyTo(samples);
        if (_hearsMid)
        {
            StretchMath.Mean(samples, heard[1]);
        }

        _filters[channel]?.Process(samples);
    }
}
