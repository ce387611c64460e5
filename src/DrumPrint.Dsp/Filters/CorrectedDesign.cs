namespace DrumPrint.Dsp.Filters;

/// <summary>A digital filter that follows analog bands in level and in phase, so many frames late.</summary>
/// <remarks>
/// What is blended with the untouched sound must have the analog phase too, or the sum is not what the bands say. Sections
/// with matched poles and zeros (<see cref="MatchedPoles"/>) come near. One short filter without feedback makes up for the
/// rest, fitted to all bands at once (<see cref="CorrectionFit"/>). The latency depends on the sample rate alone, so
/// nothing jumps as a frequency moves.
/// </remarks>
/// <param name="Sections">Second-order sections.</param>
/// <param name="Taps">What follows them.</param>
/// <param name="LatencyFrames">Frames by which the whole lags the analog filter.</param>
public sealed record CorrectedDesign(IReadOnlyList<BiquadCoefficients> Sections, IReadOnlyList<double> Taps, int LatencyFrames)
{
    /// <summary>Frames the output goes on after the input, beyond the latency; an upper bound.</summary>
    public long TailFrames => FilterTail.Frames(Sections) + Taps.Count - 1 - LatencyFrames;

    /// <summary>The filter of all bands, one after another.</summary>
    /// <param name="bands">The bands; frequencies below half the rate.</param>
    /// <param name="sampleRate">Hertz.</param>
    public static CorrectedDesign Of(IEnumerable<AnalogBand> bands, int sampleRate)
    {
        var matched = new MatchedPoles(bands, sampleRate);
        var latency = Latency(sampleRate);
        var count = (2 * latency) + 1 + matched.MissingZeros;
        return new(matched.Sections, CorrectionFit.Taps(matched.RatioAt, latency, count, sampleRate), latency);
    }

    /// <summary>Frames of latency at a rate: the nearer 20 kHz lies to half of it, the more taps the same exactness takes.</summary>
    public static int Latency(int sampleRate) => sampleRate switch
    {
        >= 88200 => 8,
        >= 48000 => 12,
        _ => 20,
    };
}
