using DrumPrint.Chains;

namespace DrumPrint.Checking.Subjects;

/// <summary>What a gate did over the song.</summary>
/// <param name="Bus">Its bus.</param>
/// <param name="Stage">The gate in the chain.</param>
/// <param name="Before">Mean power of each millisecond of what comes in, lined up with the song.</param>
/// <param name="After">The same of what goes out.</param>
/// <param name="Gains">Lowest gain of each 10 ms.</param>
/// <param name="Tracks">Raw tracks that feed it.</param>
internal sealed record GateRecord(Bus Bus, Stage Stage, float[] Before, float[] After, float[] Gains, IReadOnlyList<string> Tracks)
{
    /// <summary>Mean power of a stretch before or after, in seconds of the song.</summary>
    public static double Power(float[] powers, double fromS, double toS)
    {
        var (from, to) = ((int)Math.Clamp(fromS * 1000, 0, powers.Length), (int)Math.Clamp(toS * 1000, 0, powers.Length));
        var sum = 0.0;
        for (var i = from; i < to; i++)
        {
            sum += powers[i];
        }

        return to > from ? sum / (to - from) : 0;
    }
}
