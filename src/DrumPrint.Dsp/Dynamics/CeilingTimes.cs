namespace DrumPrint.Dsp.Dynamics;

/// <summary>The times of a ceiling in frames.</summary>
/// <param name="Ahead">How long before a peak the gain begins to come down.</param>
/// <param name="Hold">How long it stays down after.</param>
/// <param name="Release">After how long it has come 63.2 % of the way back, in decibels.</param>
internal readonly record struct CeilingTimes(int Ahead, int Hold, int Release)
{
    // A release in decibels leaves no more than −100 dB of anything after this many times its own.
    private const long TimesUntilForgotten = 13;

    /// <summary>Frames after which a peak has left nothing of what it took down.</summary>
    public long MemoryFrames => Ahead + Hold + (TimesUntilForgotten * Release);

    /// <summary>Whole frames nearest to times in milliseconds.</summary>
    public static CeilingTimes FromMs(double ahead, double hold, double release, int sampleRate) =>
        new(TriggerTimes.Frames(ahead, sampleRate), TriggerTimes.Frames(hold, sampleRate), TriggerTimes.Frames(release, sampleRate));
}
