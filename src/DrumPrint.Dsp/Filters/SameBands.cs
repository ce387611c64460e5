namespace DrumPrint.Dsp.Filters;

/// <summary>The same bands for every channel; left and right go through together.</summary>
internal sealed class SameBands : IBandStage
{
    private readonly FilterCascade? _mono;
    private readonly StereoFilterCascade? _stereo;
    private readonly TapFilter[] _corrections;

    public SameBands(CorrectedDesign design, int channels)
    {
        LatencyFrames = design.LatencyFrames;
        TailFrames = design.TailFrames;
        _corrections = [.. Enumerable.Range(0, channels).Select(_ => new TapFilter(design.Taps))];
        if (channels == 1)
        {
            _mono = new FilterCascade(design.Sections);
        }
        else
        {
            _stereo = new StereoFilterCascade(design.Sections);
        }
    }

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    public void Process(AudioBlock block)
    {
        _mono?.Process(block[0]);
        _stereo?.Process(block[0], block[1]);
        for (var channel = 0; channel < _corrections.Length; channel++)
        {
            _corrections[channel].Process(block[channel]);
        }
    }
}
