using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Makes the level readers of compressors and gates.</summary>
internal static class LevelRates
{
    // A switch needs no more than a level right to 0.02 dB; one that stands still is right to rounding.
    private const double SwitchRippleDb = -60;

    /// <summary>Four points a frame, 120 dB clean: for a gain whose every move is heard.</summary>
    public static TrueLevel Fine(int sampleRate, bool findsPeaks)
    {
        var filters = BandFilter.For(sampleRate);
        return new TrueLevel(filters.Up(0), filters.Up(1)) { FindsPeaks = findsPeaks };
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
}
