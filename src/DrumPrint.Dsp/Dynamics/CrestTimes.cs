namespace DrumPrint.Dsp.Dynamics;

/// <summary>Attack and release by the crest factor of what is listened to: short where it is all peaks, long where it stands.</summary>
/// <remarks>Source: Giannoulis, Massberg and Reiss, "Parameter Automation in a Dynamic Range Compressor", JAES 61(10), 2013 (from memory). A peak
/// and a mean square follow by one time constant of 200 ms; with C the ratio of their roots, the attack is 2 · longest / C², and the
/// release 2 · longest / C² less the attack. So a sine, whose C² is 2, has the longest attack, and a square wave twice that.</remarks>
internal sealed class CrestTimes
{
    private const double CrestMs = 200;

    // Below this nothing is heard, and a square wave's times hold.
    private const double Nothing = 1e-30;
    private const double Sliver = 1e-60;

    private readonly double _keep;
    private readonly double _attack;
    private readonly double _release;
    private readonly LookAhead _wait;
    private double _peak;
    private double _mean;

    /// <param name="longestAttackMs">Attack for a sine.</param>
    /// <param name="longestReleaseMs">Attack and release of a sine together.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="points">Points a frame.</param>
    /// <param name="lateFrames">Frames by which the levels lag that the times are for.</param>
    /// <param name="stretchFrames">Longest stretch.</param>
    public CrestTimes(double longestAttackMs, double longestReleaseMs, int sampleRate, int points, int lateFrames, int stretchFrames)
    {
        _keep = TimeConstant.PerFrame(CrestMs, sampleRate);
        _attack = longestAttackMs * sampleRate * points / 1000;
        _release = longestReleaseMs * sampleRate * points / 1000;
        _wait = new LookAhead(lateFrames, stretchFrames);
    }

    /// <summary>Times for which the crest factor remembers, in milliseconds.</summary>
    public static double MemoryMs => CrestMs;

    /// <summary>Follows a stretch.</summary>
    /// <param name="powers">Squared samples; used up.</param>
    /// <param name="attacks">Receives what an attack keeps in a point, for each frame.</param>
    /// <param name="releases">Receives the same of a release.</param>
    public void Follow(Span<double> powers, Span<double> attacks, Span<double> releases)
    {
        _wait.Process(powers);
        var (keep, mean, peak) = (_keep, _mean, _peak);
        for (var n = 0; n < powers.Length; n++)
        {
            var power = powers[n];
            mean = Math.Max(0, (keep * mean) + ((1 - keep) * power) - Sliver);
            peak = Math.Max(power, (keep * peak) + ((1 - keep) * power) - Sliver);
            var part = peak > Nothing ? 2 * mean / peak : 2;
            var attack = part * _attack;
            attacks[n] = attack;
            releases[n] = (part * _release) - attack;
        }

        (_mean, _peak) = (mean, peak);
        TimeConstant.PerFrame(attacks[..powers.Length]);
        TimeConstant.PerFrame(releases[..powers.Length]);
    }
}
