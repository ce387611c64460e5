using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Comparing.Measuring;

/// <summary>How B lies against A in time and polarity.</summary>
/// <param name="DelayFrames">Frames by which B is late and was moved back; negative when early.</param>
/// <param name="RateHz">Frames in a second.</param>
/// <param name="Polarity">B's polarity against A's, as far as it can be told.</param>
/// <param name="Correlation">How alike both are once lined up, −1 to 1.</param>
public sealed record Alignment(int DelayFrames, int RateHz, PairPolarity Polarity, double Correlation)
{
    /// <summary>The longest delay looked for, in seconds.</summary>
    internal const double ReachSeconds = 0.5;

    // Moving B must halve what is left of the difference (3 dB), or it stays: an equaliser alone moves the best fit by a frame.
    private const double Worthwhile = 0.5;
    // Below this, likeness says nothing of polarity: unrelated sounds are a little alike by chance, one way or the other.
    private const double Telling = 0.3;
    // Whole waves tell of polarity where they fit best, as long as the best fit of the other sign stays this far behind. A drum's
    // tone fits itself upside down half a period later.
    private const double ClearlyWeaker = 0.7;
    // From here on, a place where B would fit better is told. Below, it may be a tone of the drum as well as its delay.
    private const double Alike = 0.6;
    private const double Nothing = 1e-12;
    private const double Tie = 1e-9;

    /// <summary>Whether both sides are alike enough for a null and a polarity to say anything.</summary>
    public bool IsTelling => Math.Abs(Correlation) >= Telling;

    /// <summary>Whether B's polarity is the opposite of A's, and that is a fact.</summary>
    public bool IsInverted => Polarity == PairPolarity.Opposite;

    /// <summary>What single hits say of two microphones; null where whole waves told enough.</summary>
    public PairEstimate? Hits { get; init; }

    public double DelayMs => 1000.0 * DelayFrames / RateHz;

    /// <summary>Where B fits best though it was not moved there, for too little is gained; null where it lies best, or fits
    /// nowhere.</summary>
    public UnusedDelay? Unused { get; init; }

    internal static int Reach(int rateHz) => (int)(ReachSeconds * rateHz);

    /// <summary>Finds the delay.</summary>
    /// <param name="a">The passage of A.</param>
    /// <param name="wide">The same passage of B with <see cref="Reach"/> frames more before and after.</param>
    internal static Alignment Find(Sound a, Sound wide)
    {
        var reach = (wide.Frames - a.Frames) / 2;
        var (left, right) = (a.AsStereo(), wide.AsStereo());
        var products = CrossProducts(left, right, reach);
        var energyA = Levels.Energy(left.Channels[0]) + Levels.Energy(left.Channels[1]);
        var energiesB = Energies(right, a.Frames, reach);
        double Likeness(int lag)
        {
            var scale = Math.Sqrt(energyA) * Math.Sqrt(energiesB[lag + reach]);
            return scale > 0 ? Math.Clamp(products[lag + reach] / scale, -1, 1) : 0;
        }

        var (best, upright, turned) = (0, 0.0, 0.0);
        void Try(int lag)
        {
            var likeness = Likeness(lag);
            best = Math.Abs(likeness) > Math.Abs(Likeness(best)) + Tie ? lag : best;
            (upright, turned) = (Math.Max(upright, likeness), Math.Max(turned, -likeness));
        }

        Try(0);
        for (var lag = 1; lag <= reach; lag++)
        {
            Try(lag);
            Try(-lag);
        }

        var here = 1 - (Likeness(0) * Likeness(0));
        var there = 1 - (Likeness(best) * Likeness(best));
        var delay = here > Nothing && there <= here * Worthwhile ? best : 0;
        var unused = best == delay || Math.Abs(Likeness(best)) < Alike ? null : new UnusedDelay(best, a.RateHz, Likeness(best));
        var isClear = best == delay && Math.Abs(Likeness(best)) >= Telling && Math.Min(upright, turned) <= ClearlyWeaker * Math.Max(upright, turned);
        var hits = isClear ? null : MicrophonePair.Of(a, wide, reach);
        var polarity = isClear ? (Likeness(best) < 0 ? PairPolarity.Opposite : PairPolarity.Same) : hits!.Polarity;
        return new Alignment(delay, a.RateHz, polarity, Likeness(delay)) { Unused = unused, Hits = hits };
    }

    /// <summary>The same place, judged by these frames alone.</summary>
    /// <param name="a">Frames of A.</param>
    /// <param name="b">The frames of B that lie against them.</param>
    internal Alignment Over(Sound a, Sound b)
    {
        var (left, right) = (a.AsStereo(), b.AsStereo());
        var product = left.Channels.Zip(right.Channels).Sum(c => Levels.Product(c.First, c.Second));
        var scale = Math.Sqrt(left.Channels.Sum(c => Levels.Energy(c))) * Math.Sqrt(right.Channels.Sum(c => Levels.Energy(c)));
        var correlation = scale > 0 ? Math.Clamp(product / scale, -1, 1) : 0;
        return this with { Correlation = correlation };
    }

    // Σ a[n]·b[n + lag] over both channels, for lags from −reach to reach.
    private static double[] CrossProducts(Sound a, Sound wide, int reach)
    {
        var length = 2;
        while (length < wide.Frames)
        {
            length *= 2;
        }

        var fft = new RealFft(length);
        var result = new double[(2 * reach) + 1];
        var signal = new double[length];
        var (aRe, aIm) = (new double[fft.Bins], new double[fft.Bins]);
        var (bRe, bIm) = (new double[fft.Bins], new double[fft.Bins]);
        for (var channel = 0; channel < 2; channel++)
        {
            Array.Clear(signal);
            a.Channels[channel].CopyTo(signal, 0);
            fft.Forward(signal, aRe, aIm);
            Array.Clear(signal);
            wide.Channels[channel].CopyTo(signal, 0);
            fft.Forward(signal, bRe, bIm);
            for (var k = 0; k < aRe.Length; k++)
            {
                (bRe[k], bIm[k]) = ((aRe[k] * bRe[k]) + (aIm[k] * bIm[k]), (aRe[k] * bIm[k]) - (aIm[k] * bRe[k]));
            }

            fft.Inverse(bRe, bIm, signal);
            for (var i = 0; i < result.Length; i++)
            {
                result[i] += signal[i];
            }
        }

        return result;
    }

    // Energy of the stretch of B that each lag lays against A.
    private static double[] Energies(Sound wide, int frames, int reach)
    {
        var result = new double[(2 * reach) + 1];
        foreach (var channel in wide.Channels)
        {
            var sum = Levels.Energy(channel.AsSpan(0, frames));
            result[0] += sum;
            for (var i = 1; i < result.Length; i++)
            {
                var (gone, come) = (channel[i - 1], channel[i - 1 + frames]);
                sum = Math.Max(0, sum + (come * come) - (gone * gone));
                result[i] += sum;
            }
        }

        return result;
    }
}
