using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>The responses by which a gain that moves fast is applied without folding, and how they line up.</summary>
/// <remarks>
/// <para>A gain that moves at the frequency h makes f + h and f − h of a tone f. Whatever comes to lie above half the frame rate
/// folds. So the gain's fast part is applied at twice the frame rate. A low-pass removes what does not fit before every other
/// sample is dropped. The gain itself is read at four points a frame. It comes down to two with a window as the response. The
/// window falls away before what could fold back there. No tap is negative, so no gain overshoots.</para>
/// <para>The slow part lies under about a tenth of the frame rate. It is applied to the samples as they are. It moves no sound
/// below 0.4 of the rate past a half. It leaves what it does not touch bit for bit. It turns down the last octave's end too,
/// which the low-pass would leave behind.</para>
/// <para>Delays are in halves of a frame unless said otherwise.</para>
/// </remarks>
internal sealed class GainRates
{
    // The four-term window of Blackman and Harris (F. J. Harris, Proc. IEEE 66(1), 1978, table 1: side lobes −92 dB). Its main
    // lobe ends at 4/18 of four times the frame rate. A 20 kHz tone at 48 kHz would fold from 52/192 on, which lies above.
    private const int WindowSpan = 18;

    // In parts of twice the frame rate, centred on 5 kHz at 48 kHz.
    private const double SlowCentre = 5.0 / 96;
    private const double SlowTransition = 8.0 / 96;
    private const double SlowAttenuationDb = 100;

    // Further down than the smallest fast part that is applied.
    private const double BackDb = -140;

    /// <param name="sampleRate">Frame rate in hertz.</param>
    /// <param name="levelDelayPoints">Delay of the reductions in quarters of a frame, even.</param>
    public GainRates(int sampleRate, int levelDelayPoints)
    {
        var filters = BandFilter.For(sampleRate);
        Up = filters.Up(0);
        Window = MakeWindow();
        Moves = (levelDelayPoints + (WindowSpan / 2) - 1) / 2;
        var reach = (KaiserWindow.Taps(SlowAttenuationDb, SlowTransition) / 2) + 1;
        Slow = MakeSlow(reach + ((reach + Moves) & 1));
        var side = HalfBandDesign.Shortest(Decibels.ToGain(BackDb), SlowCentre + (SlowTransition / 2));
        Back = HalfBandDesign.Whole(side);
        SplitDelay = ((Slow.Length - 1) / 2) + ((Back.Length - 1) / 2);
        var delay = Moves + SplitDelay;
        SoundDelayFrames = (delay - ((Up.Length - 1) / 2)) / 2;
        LatencyFrames = (delay + filters.LowPassReach(cancels: true) + 1) / 2;
        Down = filters.LowPass((2 * LatencyFrames) - delay, _ => 1, cancels: true);
        SlowDelayFrames = LatencyFrames - ((Moves + ((Slow.Length - 1) / 2)) / 2);
    }

    /// <summary>Doubles the sound's rate.</summary>
    public double[] Up { get; }

    /// <summary>Brings a gain from four points a frame to two.</summary>
    public double[] Window { get; }

    /// <summary>Brings a gain from two points a frame to one, for its slow part.</summary>
    public double[] Slow { get; }

    /// <summary>Brings the slow part back to two points a frame.</summary>
    public double[] Back { get; }

    /// <summary>Brings the sound back from twice the frame rate.</summary>
    public double[] Down { get; }

    /// <summary>Delay of a gain at two points a frame.</summary>
    public int Moves { get; }

    /// <summary>What the way to the slow part and back adds to that.</summary>
    public int SplitDelay { get; }

    /// <summary>Frames by which the sound is held back before its rate is doubled, to meet the fast part.</summary>
    public int SoundDelayFrames { get; }

    /// <summary>Frames by which the slow part is held back to meet the sound.</summary>
    public int SlowDelayFrames { get; }

    /// <summary>Frames by which the sound lags in the end.</summary>
    public int LatencyFrames { get; }

    private static double[] MakeWindow()
    {
        var taps = new double[WindowSpan - 1];
        for (var i = 0; i < taps.Length; i++)
        {
            var turn = 2 * Math.PI * (i + 1) / WindowSpan;
            taps[i] = 0.35875 - (0.48829 * Elementary.Cos(turn)) + (0.14128 * Elementary.Cos(2 * turn)) - (0.01168 * Elementary.Cos(3 * turn));
        }

        return ToUnity(taps);
    }

    private static double[] MakeSlow(int reach)
    {
        var beta = KaiserWindow.Beta(SlowAttenuationDb);
        var taps = new double[(2 * reach) + 1];
        for (var i = 0; i < taps.Length; i++)
        {
            var turn = 2 * Math.PI * SlowCentre * (i - reach);
            taps[i] = (i == reach ? 1 : Elementary.Sin(turn) / turn) * KaiserWindow.At((double)(i - reach) / (reach + 1), beta);
        }

        return ToUnity(taps);
    }

    private static double[] ToUnity(double[] taps)
    {
        var sum = taps.Sum();
        return Array.ConvertAll(taps, t => t / sum);
    }
}
