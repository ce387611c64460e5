using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains;

/// <summary>A delay as the chain gives it; rendered to the nearest whole frame.</summary>
/// <param name="Amount">0 or more.</param>
/// <param name="Unit">Milliseconds, frames or metres.</param>
public readonly record struct Delay(double Amount, Unit Unit)
{
    public static Delay None => new(0, Unit.Frames);

    /// <summary>Speed of sound in air in m/s, 343.2 m/s × √(T / 293.15 K) (ISO 9613-1).</summary>
    public static double SpeedOfSound(double temperatureC) => 343.2 * Math.Sqrt((temperatureC + 273.15) / 293.15);

    /// <summary>Whole frames at a rate; metres by the speed of sound.</summary>
    public long ToFrames(int rateHz, double temperatureC) => Unit switch
    {
        Unit.Milliseconds => Round(Amount / 1000 * rateHz),
        Unit.Metres => Round(Amount / SpeedOfSound(temperatureC) * rateHz),
        _ => Round(Amount),
    };

    private static long Round(double frames) => (long)Math.Round(frames, MidpointRounding.AwayFromZero);
}
