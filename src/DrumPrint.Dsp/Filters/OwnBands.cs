namespace DrumPrint.Dsp.Filters;

/// <summary>Bands of its own for each of two channels.</summary>
internal sealed class OwnBands : IBandStage
{
    private readonly FilterCascade[] _sections;
    private readonly TapFilter[] _corrections;

    /// <param name="designs">One for each channel, of the same latency.</param>
    public OwnBands(IReadOnlyList<CorrectedDesign> designs)
    {
        LatencyFrames = designs[0].LatencyFrames;
        TailFrames = designs.Max(d => d.TailFrames);
        _sections = [.. designs.Select(d => new FilterCascade(d.Sections))];
        _corrections = [.. designs.Select(d => new TapFilter(d.Taps))];
    }

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    public void Process(AudioBlock block)
    {
        for (var channel = 0; channel < _sections.Length; channel++)
        {
            _sections[channel].Process(block[channel]);
            _corrections[channel].Process(block[channel]);
        }
    }
}
