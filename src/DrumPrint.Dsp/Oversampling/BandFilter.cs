using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Oversampling;

/// <summary>Designs the responses of the oversampler, at least 120 dB down in the stop band and as short as that allows.</summary>
/// <param name="passEdge">End of the flat band as a part of the frame rate, under ½.</param>
/// <param name="sampleRate">Frame rate in hertz.</param>
internal sealed class BandFilter(double passEdge, int sampleRate)
{
    /// <summary>End of the widest flat band as a part of the frame rate: 20 kHz at 44.1 kHz.</summary>
    public const double PassEdge = FlatHz / 44100;

    private const double FlatHz = 20000;

    // At high rates 20 kHz alone would be cheaper still, but whoever chose such a rate wants more than that. This part of the
    // rate is 35 kHz at 88.2 kHz. It costs a tenth less than 48 kHz does.
    private const double HighRatePassEdge = 0.4;

    private const double FirstStopBandDb = -120;

    // Many of the later ones follow one another, and what they cost grows little with what they give.
    private const double LaterStopBandDb = -128;

    // A quarter of the taps of a low-pass with a transition of the whole rate. Found by trial: the stop band holds for every
    // place of the middle and for the droop of every stage. Half the taps are an even number: with an odd one it is 2 dB worse.
    private const double LowPassLength = 1.625;

    // How far the low-pass may stray against the stop band. Up to 9 kHz it strays so little that a signal left alone cancels
    // against itself. From there it may stray more and more, up to 0.002 dB at the end. That saves an eighth of the taps.
    private const double CancellingDb = -10;
    private const double CancellingPart = 0.45;
    private const double EdgeDb = 48;

    // The same where nothing is to cancel: 0.004 dB. A gain with a corner at 0 Hz cannot be followed closely. What is asked for
    // in vain would be taken from the stop band.
    private const double LooseDb = 54;

    // How well it is followed is a matter of time, not of taps. So it is as long at any rate up to 192 kHz as it is at
    // 48 kHz.
    private const double LeastLooseSeconds = 0.0008;
    private const int MostLooseHalf = 308;

    /// <summary>Least middle of <see cref="LowPass"/>.</summary>
    public int LowPassReach(bool cancels) => LowPassHalf(cancels) - 1;

    /// <summary>The responses for a frame rate: flat to 20 kHz, to a little less below 44.1 kHz, and further at high rates.</summary>
    /// <param name="sampleRate">Frame rate in hertz.</param>
    public static BandFilter For(int sampleRate) => new(Math.Min(PassEdge, Math.Max(FlatHz / sampleRate, HighRatePassEdge)), sampleRate);

    /// <summary>Half-band response that takes a signal from 2 to the power of <paramref name="step"/> times the frame rate to
    /// twice its rate. It leaves no images of the flat band.</summary>
    /// <returns>An odd number of taps, symmetric; every other one is zero but the middle one, which is ½.</returns>
    public double[] Up(int step) => HalfBand(step, passEdge);

    /// <summary>Half-band response that takes a signal back to 2 to the power of <paramref name="step"/> times the frame rate,
    /// two or more. Nothing folds into what lies below half the frame rate.</summary>
    /// <returns>As <see cref="Up"/>.</returns>
    public static double[] Down(int step) => HalfBand(step, 0.5);

    /// <summary>Linear-phase low-pass at twice the frame rate. It keeps the flat band and removes everything from half
    /// the frame rate up. So nothing folds back when every other sample is dropped.</summary>
    /// <param name="middle">Delay in samples, at least <see cref="LowPassReach"/>; need not be whole.</param>
    /// <param name="gain">Gain to give the pass band at a frequency stated as a part of the frame rate.</param>
    /// <param name="cancels">Whether what is brought back is to cancel against the same signal left alone.</param>
    public double[] LowPass(double middle, Func<double, double> gain, bool cancels)
    {
        var before = (int)Math.Floor(middle);
        var half = LowPassHalf(cancels);
        var fit = LowPassDesign.Fit(half, middle - before - 0.5, passEdge, gain, cancels ? Cancelling : _ => Decibels.ToGain(LooseDb));
        return [.. new double[before + 1 - half], .. fit];
    }

    private static double[] HalfBand(int step, double edge) =>
        HalfBandDesign.Whole(HalfBandDesign.Shortest(Decibels.ToGain(step == 0 ? FirstStopBandDb : LaterStopBandDb), edge / (2 << step)));

    private double Cancelling(double freq)
    {
        var rise = Math.Max(0, ((freq / passEdge) - CancellingPart) / (1 - CancellingPart));
        return Decibels.ToGain(CancellingDb + (rise * (EdgeDb - CancellingDb)));
    }

    private int LowPassHalf(bool cancels)
    {
        var half = 2 * (int)Math.Ceiling(LowPassLength / ((0.5 - passEdge) / 2));
        return cancels ? half : Math.Max(half, Math.Min(MostLooseHalf, (int)Math.Ceiling(LeastLooseSeconds * 2 * sampleRate)));
    }
}
