using DrumPrint.Chains;
using DrumPrint.Tickets;

namespace DrumPrint.Live;

/// <summary>The common trim of the prints that were made last.</summary>
public static class LastTrim
{
    /// <summary>By how many dB they were lowered together; 0 where none were, or nothing tells of it.</summary>
    public static double Of(Chain chain)
    {
        ArgumentNullException.ThrowIfNull(chain);
        return PrintedTrim.Of(chain) ?? 0;
    }
}
