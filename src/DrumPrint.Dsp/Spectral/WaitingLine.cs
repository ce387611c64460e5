using DrumPrint.Dsp.Mixing;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Makes whole channels wait a fixed number of frames, in place.</summary>
internal sealed class WaitingLine(int channels, int frames)
{
    private readonly double[][] _rings = [.. Enumerable.Range(0, channels).Select(_ => new double[frames])];
    private int _oldest;

    /// <summary>Every sample changes places with the one that has waited long enough.</summary>
    public void Process(double[][] blocks)
    {
        if (frames == 0)
        {
            return;
        }

        var at = _oldest;
        for (var channel = 0; channel < _rings.Length; channel++)
        {
            var ring = _rings[channel].AsSpan();
            at = _oldest;
            for (var samples = blocks[channel].AsSpan(); !samples.IsEmpty;)
            {
                var count = Math.Min(samples.Length, ring.Length - at);
                Blend.Exchange(samples[..count], ring.Slice(at, count));
                samples = samples[count..];
                at = at + count == ring.Length ? 0 : at + count;
            }
        }

        _oldest = at;
    }
}
