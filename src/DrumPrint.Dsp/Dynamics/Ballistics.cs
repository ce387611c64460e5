using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>The factors of a smooth decoupled detector whose attack and release are what the dials say.</summary>
/// <remarks>
/// <para>Source: Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (17): a peak hold that leaks, then a smoother.
/// The paper recommends it, after the gain computer and in decibels. It reads a peak as a peak whatever the attack. The
/// gain has no corner where attack turns into release.</para>
/// <para>Its release is longer than its leak alone, because the smoother comes after it. Here the leak is solved so that
/// both together have come 63.2 % of the way at the release time. A release shorter than about twice the attack cannot
/// be reached like that. The smoother then falls faster than it rises, as fast as the leak.</para>
/// </remarks>
internal readonly record struct Ballistics
{
    private const double Remaining = 0.36787944117144233; // 1/e
    private const int Halvings = 60;

    /// <param name="attackFrames">Frames after which a rise has come 63.2 % of its way.</param>
    /// <param name="releaseFrames">The same for a fall.</param>
    public Ballistics(double attackFrames, double releaseFrames)
    {
        Rise = TimeConstant.PerFrame(attackFrames);
        var alike = Solve(releaseFrames, null);
        Fall = Math.Min(Rise, alike);
        Leak = Rise < alike ? Solve(releaseFrames, Rise) : alike;
    }

    /// <summary>What the smoother keeps in one frame while it rises.</summary>
    public double Rise { get; }

    /// <summary>What the smoother keeps in one frame while it falls.</summary>
    public double Fall { get; }

    /// <summary>What the peak hold keeps in one frame.</summary>
    public double Leak { get; }

    // The leak with which 1/e is left after the frames asked for; without a smoother's factor both factors are alike.
    private static double Solve(double frames, double? smoother)
    {
        if (frames <= 0)
        {
            return 0;
        }

        var (low, high) = (0.0, frames);
        for (var i = 0; i < Halvings; i++)
        {
            var middle = (low + high) / 2;
            var leak = TimeConstant.PerFrame(middle);
            if (Left(leak, smoother ?? leak, frames) > Remaining)
            {
                high = middle;
            }
            else
            {
                low = middle;
            }
        }

        return TimeConstant.PerFrame(high);
    }

    // Both stages start at 1 and fall to 0: sⁿ + (1 − s) · (s^(n−1) l + s^(n−2) l² + … + lⁿ).
    private static double Left(double leak, double smoother, double frames)
    {
        var leakLeft = Elementary.Pow(leak, frames);
        var smootherLeft = Elementary.Pow(smoother, frames);
        var apart = leak - smoother;
        var sum = Math.Abs(apart) < 1e-9 ? frames * leakLeft : leak * (leakLeft - smootherLeft) / apart;
        return smootherLeft + ((1 - smoother) * sum);
    }
}
