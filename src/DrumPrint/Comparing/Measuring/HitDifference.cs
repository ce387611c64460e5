namespace DrumPrint.Comparing.Measuring;

/// <summary>How B's hits differ from A's, after matching.</summary>
/// <param name="Count">Hits found in A.</param>
/// <param name="AttackDb">Mean energy of the first 20 ms, B over A; null without a hit.</param>
/// <param name="SustainDb">Mean energy from 40 to 200 ms after the start, B over A; null when no hit has room for that.</param>
/// <param name="SustainCount">Hits after which the next leaves that room.</param>
/// <param name="AtS">Where the hits are, in seconds from the start of the passage.</param>
public sealed record HitDifference(int Count, double? AttackDb, double? SustainDb, int SustainCount, IReadOnlyList<double> AtS)
{
    private const int AttackSlices = 20;
    private const int SustainFrom = 40;
    private const int SustainTo = 200;

    internal static HitDifference Of(Sound a, Sound b)
    {
        var (slicesA, slicesB) = (Onsets.Slices(a), Onsets.Slices(b));

        // Energies of a mono and a stereo side are compared as heard: a mono side plays on both.
        var share = (double)b.Channels.Length / a.Channels.Length;
        var hits = Onsets.Find(slicesA);
        var (attackA, attackB, sustainA, sustainB) = (0.0, 0.0, 0.0, 0.0);
        var roomy = 0;
        for (var i = 0; i < hits.Count; i++)
        {
            var next = i + 1 < hits.Count ? hits[i + 1] : slicesA.Length;
            attackA += Sum(slicesA, hits[i], hits[i] + AttackSlices);
            attackB += Sum(slicesB, hits[i], hits[i] + AttackSlices);
            if (next - hits[i] >= SustainTo)
            {
                roomy++;
                sustainA += Sum(slicesA, hits[i] + SustainFrom, hits[i] + SustainTo);
                sustainB += Sum(slicesB, hits[i] + SustainFrom, hits[i] + SustainTo);
            }
        }

        return new HitDifference(
            hits.Count,
            Ratio(attackB, attackA * share),
            Ratio(sustainB, sustainA * share),
            roomy,
            [.. hits.Select(h => (double)h / Onsets.SlicesPerSecond)]);
    }

    private static double? Ratio(double b, double a) => a > 0 && b > 0 ? Levels.Db(b / a) : null;

    private static double Sum(double[] slices, int from, int to)
    {
        var sum = 0.0;
        foreach (var slice in slices.AsSpan(from, Math.Min(to, slices.Length) - from))
        {
            sum += slice;
        }

        return sum;
    }
}
