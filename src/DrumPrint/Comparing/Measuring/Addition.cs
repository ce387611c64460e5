using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Comparing.Measuring;

/// <summary>What a part of a chain adds to the whole, at true level.</summary>
/// <remarks>In powers: a region's share is by how much the whole would rise if only that region came in. The parts of a rise
/// need not add up to it, for decibels do not.</remarks>
/// <param name="What">What was left out.</param>
/// <param name="TotalDb">Rise of the power of the whole; below 0 it takes away.</param>
/// <param name="LowDb">Rise from what lies below 120 Hz alone.</param>
/// <param name="MiddleDb">Rise from 120 Hz to 2 kHz alone.</param>
/// <param name="HighDb">Rise from above 2 kHz alone.</param>
public sealed record Addition(string What, double TotalDb, double LowDb, double MiddleDb, double HighDb)
{
    internal const double LowHz = 120;
    internal const double HighHz = 2000;

    /// <summary>What each region adds, as a part of the whole's energy without it; below 0 it takes away. These do add up.</summary>
    public IReadOnlyList<(string Name, double Added)> Regions =>
    [
        ("below 120 Hz", Added(LowDb)),
        ("from 120 Hz to 2 kHz", Added(MiddleDb)),
        ("above 2 kHz", Added(HighDb)),
    ];

    internal static Addition? Of(string what, BandPowers with, BandPowers without)
    {
        var whole = without.Total;
        if (whole <= 0)
        {
            return null;
        }

        double Rise(double low, double high) =>
            Levels.Db(Math.Max(0, whole + with.Between(low, high) - without.Between(low, high)) / whole);

        return new Addition(what, Rise(0, with.HighestHz), Rise(0, LowHz), Rise(LowHz, HighHz), Rise(HighHz, with.HighestHz));
    }

    private static double Added(double riseDb)
    {
        var gain = Decibels.ToGain(riseDb);
        return (gain * gain) - 1;
    }
}
