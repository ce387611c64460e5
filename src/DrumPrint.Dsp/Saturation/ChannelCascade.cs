using DrumPrint.Dsp.Filters;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The same second-order sections for every channel of a block; left and right go through together.</summary>
internal sealed class ChannelCascade
{
    private readonly FilterCascade[] _single;
    private readonly StereoFilterCascade? _stereo;

    public ChannelCascade(IReadOnlyList<BiquadCoefficients> sections, int channels)
    {
        _stereo = channels == 2 ? new StereoFilterCascade(sections) : null;
        _single = new FilterCascade[channels == 2 ? 0 : channels];
        for (var c = 0; c < _single.Length; c++)
        {
            _single[c] = new FilterCascade(sections);
        }

        TailFrames = FilterTail.Frames(sections);
    }

    /// <summary>Frames until the filter has rung off, an upper bound.</summary>
    public long TailFrames { get; }

    /// <summary>Filters a stretch in place.</summary>
    public void Process(AudioBlock stretch)
    {
        _stereo?.Process(stretch[0], stretch[1]);
        for (var c = 0; c < _single.Length; c++)
        {
            _single[c].Process(stretch[c]);
        }
    }
}
