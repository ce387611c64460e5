namespace DrumPrint.Dsp.Dynamics;

/// <summary>The times of a gate in frames.</summary>
internal readonly record struct TriggerTimes(int Attack, int Hold, int Release)
{
    /// <summary>Frames that one way out and back takes, twice over: a way that began halfway ends within the second.</summary>
    public long MemoryFrames => 2L * (Attack + Hold + Release);

    /// <summary>Whole frames nearest to a time.</summary>
    public static int Frames(double milliseconds, int sampleRate) => (int)Math.Round(milliseconds * sampleRate / 1000);
}
