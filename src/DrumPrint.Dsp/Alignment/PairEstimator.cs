using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Alignment;

/// <summary>Finds how much later, and which way up, a second microphone hears the drum of a close one.</summary>
/// <remarks>
/// The drum's own hits select windows of 10 ms. Whitened correlations (<see cref="WhitenedCorrelation"/>) of windows laid over
/// each other give the place. They are taken all through the search. The direct sound fills a short window, reverberation a
/// long one. At that place a window of 6 ms gives the part of a frame; high frequencies count more in it. Polarity is the sign
/// of the peak where the low bands agree.
/// </remarks>
public static class PairEstimator
{
    private const double WindowS = 0.010;
    private const double FineWindowS = 0.006;
    private const int FewestHits = 3;
    private const int MostOthers = 64;
    private const double NarrowestHz = 100;
    private const double GuardS = 0.0003;
    private const double FineReachS = 0.00006;

    // What half a confidence, the least for a fact, stands for.
    private const double FactRival = 0.75;
    private const double FactLikeness = 0.1;
    private const double FactHits = 5;
    private const double FactOtherSign = 0.75;
    private const double FactLow = 0.15;

    /// <summary>Estimates a pair held in memory.</summary>
    /// <param name="close">The close microphone.</param>
    /// <param name="other">The second one, from the same moment on.</param>
    /// <param name="rateHz">Frames in a second of both.</param>
    /// <param name="search">Where to look; the usual reach when left out.</param>
    public static PairEstimate Of(ReadOnlyMemory<double> close, ReadOnlyMemory<double> other, int rateHz, AlignmentSearch? search = null) =>
        Of(HitFinder.Find(close.Span, rateHz), Reader(close), Reader(other), rateHz, search);

    /// <summary>Estimates a pair that is read as it is needed: a few windows around each hit.</summary>
    /// <param name="times">What <see cref="HitFinder"/> found in the close microphone.</param>
    /// <param name="close">The close microphone.</param>
    /// <param name="other">The second one, from the same moment on.</param>
    /// <param name="rateHz">Frames in a second of both.</param>
    /// <param name="search">Where to look; the usual reach when left out.</param>
    public static PairEstimate Of(HitTimes times, FrameReader close, FrameReader other, int rateHz, AlignmentSearch? search = null)
    {
        ArgumentNullException.ThrowIfNull(times);
        ArgumentNullException.ThrowIfNull(close);
        ArgumentNullException.ThrowIfNull(other);
        search ??= new AlignmentSearch();
        var (hits, rivals) = OwnHits.Choose(times, close, other, rateHz, search.MostHits, MostOthers);
        return Of(new ChosenHits(hits, rivals), close, other, rateHz, search);
    }

    /// <summary>Estimates a pair from hits that were chosen with the whole kit in view.</summary>
    /// <param name="chosen">Hits of the drum, as the close microphone hears them, and of others.</param>
    /// <param name="close">The close microphone.</param>
    /// <param name="other">The second one, from the same moment on.</param>
    /// <param name="rateHz">Frames in a second of both.</param>
    /// <param name="search">Where to look; the usual reach when left out.</param>
    public static PairEstimate Of(ChosenHits chosen, FrameReader close, FrameReader other, int rateHz, AlignmentSearch? search = null)
    {
        ArgumentNullException.ThrowIfNull(chosen);
        ArgumentNullException.ThrowIfNull(close);
        ArgumentNullException.ThrowIfNull(other);
        search ??= new AlignmentSearch();
        var (hits, rivals) = (chosen.Own, chosen.Others);
        var nothing = new PairEstimate { RateHz = rateHz, Hits = hits.Count, BodyAgreement = LowBand.OfBody(close, other, hits, rateHz) };
        if (hits.Count < FewestHits)
        {
            return nothing;
        }

        var window = new HitWindow(WindowS, rateHz);
        var own = window.Take(close, hits);
        var before = window.Take(close, [.. hits.Select(h => h - window.Frames)]);
        var others = window.Take(close, rivals);
        var hzPerBin = (double)rateHz / window.Points;
        var weights = DrumBand.Weights(own, before, others, hzPerBin, rateHz);
        if (weights.Sum() * hzPerBin < NarrowestHz)
        {
            return nothing;
        }

        var correlation = new WhitenedCorrelation(window, weights);
        var scan = Scan.Of(correlation, window, own, other, hits, rateHz, search);
        var (delay, sign) = (scan.BestFrames, scan.Sign);
        var reach = (int)(WhitenedCorrelation.Finer * GuardS * rateHz);
        var height = 0.0;
        for (var pass = 0; pass < 2; pass++)
        {
            var whole = (int)Math.Round(delay);
            correlation.Take(window, own, other, hits, whole);
            (var part, height) = correlation.Peak(reach, sign);
            delay = whole + part;
        }

        var (fine, spread) = Fine(window.Points, weights, close, other, hits, delay, sign, rateHz);
        var low = sign * LowBand.Addition(close, other, hits, (int)Math.Round(fine), rateHz);
        var confidence = Math.Min(Math.Min(Above(FactRival, scan.Rival), height / FactLikeness / 2), hits.Count / FactHits / 2);
        confidence = Math.Clamp(confidence, 0, 1);
        var polarity = Math.Min(Math.Min(confidence, Above(FactOtherSign, scan.OtherSign)), low / FactLow / 2);
        return nothing with
        {
            DelayFrames = fine,
            SpreadFrames = spread,
            DriftFrames = Math.Abs(fine - delay),
            Confidence = confidence,
            PolarityConfidence = Math.Clamp(polarity, 0, 1),
            FitsInverted = sign < 0,
            LowSumDb = Decibels.FromGain(Math.Sqrt(1 + (sign * low))),
        };
    }

    /// <summary>Reads from memory.</summary>
    public static FrameReader Reader(ReadOnlyMemory<double> samples) => (firstFrame, frames) =>
    {
        frames.Clear();
        var from = Math.Max(0, firstFrame);
        var to = Math.Min(samples.Length, firstFrame + frames.Length);
        if (to > from)
        {
            samples.Span[(int)from..(int)to].CopyTo(frames[(int)(from - firstFrame)..]);
        }
    };

    // Half at the mark, 1 when the rival is nothing.
    private static double Above(double mark, double rival) =>
        rival >= mark ? 0.5 * (1 - rival) / (1 - mark) : 0.5 + (0.5 * (mark - rival) / mark);

    private static (double Frames, double Spread) Fine(
        int points, double[] weights, FrameReader close, FrameReader other, IReadOnlyList<long> hits, double delay, int sign, int rateHz)
    {
        var window = new HitWindow(FineWindowS, rateHz, points);
        var bright = new double[weights.Length];
        for (var k = 0; k < bright.Length; k++)
        {
            bright[k] = weights[k] * k * k;
        }

        var own = window.Take(close, hits);
        var correlation = new WhitenedCorrelation(window, bright);
        var reach = Math.Max(2, (int)(WhitenedCorrelation.Finer * FineReachS * rateHz));
        var height = 0.0;
        for (var pass = 0; pass < 2; pass++)
        {
            var whole = (int)Math.Round(delay);
            correlation.Take(window, own, other, hits, whole);
            (var part, height) = correlation.Peak(reach, sign);
            delay = whole + part;
        }

        // A phase that strays by φ moves the peak by φ/ω; a mean cosine of 1 − φ²/2 is what the peak has kept.
        var kept = correlation.Likeness > 0 ? Math.Clamp(height / correlation.Likeness, 0, 1) : 0;
        var radians = Math.Sqrt(2 * (1 - kept));
        var spread = correlation.MeanBin > 0 ? radians / (2 * Math.PI * correlation.MeanBin / window.Points) / 2 : double.PositiveInfinity;
        return (delay, spread);
    }
}
