using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains;

/// <summary>A delay as the chain gives it.</summary>
/// <param name="Amount">0 or more.</param>
/// <param name="Unit">Milliseconds, frames or metres.</param>
/// <param name="IsExact">Whether a part of a frame is kept; otherwise the nearest whole frame is rendered.</param>
public readonly record struct PathDelay(double Amount, Unit Unit, bool IsExact = false)
{
    // Nearer to a whole frame than this is rounding.
    private const double Whole = 1e-9;

    public static PathDelay None => new(0, Unit.Frames);

    /// <summary>Speed of sound in air in m/s, 343.2 m/s × √(T / 293.15 K) (ISO 9613-1).</summary>
    public static double SpeedOfSound(double temperatureC) => 343.2 * Math.Sqrt((temperatureC + 273.15) / 293.15);

    /// <summary>The delay in frames at a rate, before it goes to whole ones.</summary>
    public double Frames(int rateHz, double temperatureC) => Unit switch
    {
        Unit.Milliseconds => Amount / 1000 * rateHz,
        Unit.Metres => Amount / SpeedOfSound(temperatureC) * rateHz,
        _ => Amount,
    };

    /// <summary>Whole frames at a rate, rounded up where a part of a frame is kept; metres by the speed of sound.</summary>
    public long ToFrames(int rateHz, double temperatureC)
    {
        var (whole, part) = Parts(rateHz, temperatureC);
        return whole + (part > 0 ? 1 : 0);
    }

    /// <summary>What is rendered: whole frames, and a part of one from 0 to 1.</summary>
    public (long Whole, double Part) Parts(int rateHz, double temperatureC)
    {
        var frames = Frames(rateHz, temperatureC);
        var nearest = Math.Round(frames, MidpointRounding.AwayFromZero);
        if (!IsExact || Math.Abs(frames - nearest) < Whole)
        {
            return ((long)nearest, 0);
        }

        var whole = Math.Floor(frames);
        return ((long)whole, frames - whole);
    }
}
