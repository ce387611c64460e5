using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Filters;

/// <summary>Bands whose phase stays as it is: one long symmetric filter for each channel.</summary>
internal sealed class LinearBands : IBandStage
{
    private readonly LongFilter _filter;
    private readonly int _centre;

    /// <param name="designs">One for each channel; the same object may stand for several.</param>
    public LinearBands(IReadOnlyList<LinearDesign> designs)
    {
        _centre = designs.Max(d => d.Centre);
        PreRingMs = designs.Max(d => d.RingMs);
        var taps = designs.Distinct().ToDictionary(d => d, d => d.Reaching(_centre));
        _filter = new LongFilter([.. designs.Select(d => taps[d])]);
    }

    public int LatencyFrames => _filter.LatencyFrames + _centre;

    public long TailFrames => _centre;

    public double PreRingMs { get; }

    public void Process(AudioBlock block) => _filter.Process(block);
}
