namespace DrumPrint.Dsp.Alignment;

/// <summary>Whether the low bands of two microphones add up.</summary>
internal static class LowBand
{
    private const double LowestHz = 60;
    private const double HighestHz = 500;
    private const double WindowS = 0.025;
    private const double BodyLowestHz = 40;
    private const double BodyHighestHz = 300;
    private const double BodyS = 0.060;

    /// <summary>How the two add up in the lows, both at one level: the energy of their sum, less that of their difference,
    /// over that of both. The mean over hits, from −1 (they cancel) to 1 (they add up in full).</summary>
    public static double Addition(FrameReader close, FrameReader other, IReadOnlyList<long> hitFrames, int laterFrames, int rateHz) =>
        Addition(close, other, hitFrames, laterFrames, rateHz, LowestHz, HighestHz, WindowS, byEnergy: false);

    /// <summary>The same for the body of a drum, 40 to 300 Hz over 60 ms, with both as they stand. Round one drum, these waves
    /// are longer than any way between two microphones. Loud hits count more.</summary>
    public static double OfBody(FrameReader close, FrameReader other, IReadOnlyList<long> hitFrames, int rateHz) =>
        Addition(close, other, hitFrames, 0, rateHz, BodyLowestHz, BodyHighestHz, BodyS, byEnergy: true);

    private static double Addition(
        FrameReader close, FrameReader other, IReadOnlyList<long> hitFrames, int laterFrames, int rateHz, double lowestHz, double highestHz, double seconds, bool byEnergy)
    {
        var window = new HitWindow(seconds, rateHz);
        var (a, b) = (new HitSpectrum(window.Bins), new HitSpectrum(window.Bins));
        var (first, last) = ((int)Math.Ceiling(lowestHz * window.Points / rateHz), (int)(highestHz * window.Points / rateHz));
        var (wholeA, wholeB, wholeProduct, sum) = (0.0, 0.0, 0.0, 0.0);
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
            (wholeA, wholeB, wholeProduct) = (wholeA + powerA, wholeB + powerB, wholeProduct + product);
        }

        var wholeSize = Math.Sqrt(wholeA) * Math.Sqrt(wholeB);
        var mean = byEnergy ? (wholeSize > 0 ? wholeProduct / wholeSize : 0) : hitFrames.Count > 0 ? sum / hitFrames.Count : 0;
        return Math.Clamp(mean, -1, 1);
    }
}
