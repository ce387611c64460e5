namespace DrumPrint.Dsp.Alignment;

/// <summary>Whether the low bands of two microphones add up.</summary>
internal static class LowBand
{
    private const double LowestHz = 60;
    private const double HighestHz = 500;
    private const double WindowS = 0.025;

    /// <summary>Energy of the sum of both, at one level, less that of their difference, over that of both; the mean over hits,
    /// −1 (they cancel) to 1 (they add up in full).</summary>
    public static double Addition(FrameReader close, FrameReader other, IReadOnlyList<long> hitFrames, int laterFrames, int rateHz)
    {
        var window = new HitWindow(WindowS, rateHz);
        var (a, b) = (new HitSpectrum(window.Bins), new HitSpectrum(window.Bins));
        var (first, last) = ((int)Math.Ceiling(LowestHz * window.Points / rateHz), (int)(HighestHz * window.Points / rateHz));
        var sum = 0.0;
        foreach (var frame in hitFrames)
        {
            window.Take(close, frame, a);
            window.Take(other, frame + laterFrames, b);
            var (powerA, powerB, product) = (0.0, 0.0, 0.0);
            for (var k = first; k <= last; k++)
            {
                powerA += a.Power(k);
                powerB += b.Power(k);
                product += (a.Re[k] * b.Re[k]) + (a.Im[k] * b.Im[k]);
            }

            var size = Math.Sqrt(powerA) * Math.Sqrt(powerB);
            sum += size > 0 ? product / size : 0;
        }

        return hitFrames.Count > 0 ? Math.Clamp(sum / hitFrames.Count, -1, 1) : 0;
    }
}
