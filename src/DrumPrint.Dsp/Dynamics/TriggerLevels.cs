using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>The squared levels that switch a gain over.</summary>
/// <param name="Upper">Reaching this puts it to work.</param>
/// <param name="Lower">Staying below this lets it rest; not above <paramref name="Upper"/>.</param>
internal readonly record struct TriggerLevels(double Upper, double Lower)
{
    // A wave written to reach the very threshold may be read a rounding below it.
    private const double Hair = 1 - 1e-12;

    /// <summary>Takes levels in dB.</summary>
    public static TriggerLevels FromDecibels(double upper, double lower) => new(Power(upper), Power(lower));

    private static double Power(double db)
    {
        var gain = Decibels.ToGain(db) * Hair;
        return gain * gain;
    }
}
