using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Makes the level readers of compressors and gates.</summary>
internal static class LevelRates
{
    // A switch needs no more than a level right to 0.02 dB; one that stands still is right to rounding.
    private const double SwitchRippleDb = -60;

    // The first response is a windowed sinc, in parts of the frame rate and centred on half of it; the second one keeps all that the
    // first leaves, in parts of four times the frame rate.
    private const double CloseDb = 80;
    private const double CloseTransition = 0.026;
    private const int ShortHalf = 10;
    private const double ShortDb = 54;
    private const double CloseSecondEdge = (0.5 + (CloseTransition / 2)) / 4;

    /// <summary>Four points a frame, 120 dB clean: for a gain whose every move is heard.</summary>
    public static TrueLevel Fine(int sampleRate, bool findsPeaks)
    {
        var filters = BandFilter.For(sampleRate);
        return new TrueLevel(filters.Up(0), filters.Up(1)) { FindsPeaks = findsPeaks };
    }

    /// <summary>For a ceiling: one reader at four points a frame, true to 0.487 of the rate; and one that sees a few samples only, as
    /// short readers of true peak do.</summary>
    public static CeilingReader Close()
    {
        var half = SincKernel.Half(CloseDb, CloseTransition);
        var second = HalfBandDesign.Whole(HalfBandDesign.Shortest(Decibels.ToGain(-CloseDb), CloseSecondEdge));
        var close = new TrueLevel(Windowed(half, CloseDb, half), second);
        return new CeilingReader(close, new TrueLevel(Windowed(ShortHalf, ShortDb, (close.DelayPoints + 2) / 4), null));
    }

    /// <summary>Two points a frame, for a gate: it only asks whether a level is reached.</summary>
    public static TrueLevel Coarse(int sampleRate)
    {
        var edge = Math.Min(BandFilter.PassEdge, Math.Max(20000.0 / sampleRate, 0.25));
        var side = HalfBandDesign.Shortest(Decibels.ToGain(SwitchRippleDb), edge / 2);
        var sum = side.Sum();
        var middle = (2 * side.Length) - 1;
        var taps = new double[(2 * middle) + 1];
        taps[middle] = 0.5;
        for (var i = 0; i < side.Length; i++)
        {
            taps[middle - 1 - (2 * i)] = side[i] / (4 * sum);
            taps[middle + 1 + (2 * i)] = side[i] / (4 * sum);
        }

        return new TrueLevel(taps, null);
    }

    // A half-band response from so many samples on either side, so many frames late.
    private static double[] Windowed(int half, double attenuationDb, int late)
    {
        var between = SincKernel.Taps(half - 0.5, half, attenuationDb);
        var taps = new double[(4 * late) - 1];
        for (var i = 0; i < between.Length; i++)
        {
            taps[2 * (i + late - half)] = between[i] / 2;
        }

        taps[(2 * late) - 1] = 0.5;
        return taps;
    }
}
