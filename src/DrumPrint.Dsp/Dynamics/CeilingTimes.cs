namespace DrumPrint.Dsp.Dynamics;

/// <summary>The times of a ceiling in frames.</summary>
/// <param name="Ahead">How long before a peak the gain begins to come down.</param>
/// <param name="Hold">How long it stays down after.</param>
/// <param name="Release">After how long it has come 63.2 % of the way back, in decibels.</param>
internal readonly record struct CeilingTimes(int Ahead, int Hold, int Release)
{
    /// <summary>Whole frames nearest to times in milliseconds.</summary>
    public static CeilingTimes FromMs(double ahead, double hold, double release, int sampleRate) =>
        new(TriggerTimes.Frames(ahead, sampleRate), TriggerTimes.Frames(hold, sampleRate), TriggerTimes.Frames(release, sampleRate));
}
