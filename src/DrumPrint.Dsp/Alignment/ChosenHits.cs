namespace DrumPrint.Dsp.Alignment;

/// <summary>The hits that a drum's delay is read from, and what it has to stand out from.</summary>
/// <param name="Own">Frames at which the close microphone hears hits of its drum, in order of time.</param>
/// <param name="Others">Frames of hits of other drums.</param>
public sealed record ChosenHits(IReadOnlyList<long> Own, IReadOnlyList<long> Others)
{
    private const double OftenPart = 0.25;
    private const double AlsoHitDb = -10;

    private const double WellClearDb = 6;
    private const double ClearDb = 3;
    private const double SoftestDb = -12;
    private const int Enough = 12;
    private const int MostOthers = 64;
    private const double CountedDb = 24;

    /// <summary>Drums that are often hit together with this one, as the hat is with the snare.</summary>
    public IReadOnlyList<int> Companions { get; init; } = [];

    /// <summary>Chooses with all close microphones in view: hits that the drum's own microphones hear well clear of all others, the
    /// clearest first.</summary>
    /// <param name="kit">The take.</param>
    /// <param name="drums">Close microphones of each drum.</param>
    /// <param name="drum">The drum.</param>
    /// <param name="microphone">The microphone whose onsets count; one of the drum's.</param>
    /// <param name="most">Hits that are taken at most.</param>
    public static ChosenHits Of(KitHits kit, IReadOnlyList<IReadOnlyList<int>> drums, int drum, int microphone, int most = 40)
    {
        ArgumentNullException.ThrowIfNull(kit);
        ArgumentNullException.ThrowIfNull(drums);
        var clear = kit.ClearanceDb(drums, drum, microphone);
        var able = Enumerable.Range(0, clear.Length).Where(h => kit.OnsetFrame(microphone, h) >= 0 && kit.RelativeDb(microphone, h) >= SoftestDb).ToList();
        var well = able.Where(h => clear[h] >= WellClearDb).ToList();
        List<int> taken = [.. (well.Count >= Enough ? well : able.Where(h => clear[h] >= ClearDb))
            .OrderByDescending(h => Math.Min(CountedDb, clear[h]) + (0.5 * kit.RelativeDb(microphone, h)))
            .ThenBy(h => h)
            .Take(most)
            .Order()];
        List<int> others = [.. Enumerable.Range(0, clear.Length).Where(h => clear[h] < ClearDb)];
        return new ChosenHits([.. taken.Select(h => kit.OnsetFrame(microphone, h))], Thinned(kit, others))
        {
            Companions = [.. Enumerable.Range(0, drums.Count).Where(d => d != drum && taken.Count(h => kit.RelativeDb(drums[d], h) >= AlsoHitDb) > taken.Count * OftenPart)],
        };
    }

    private static List<long> Thinned(KitHits kit, List<int> hits)
    {
        var count = Math.Min(MostOthers, hits.Count);
        return [.. Enumerable.Range(0, count).Select(i => kit.Frames[hits[(int)((long)i * hits.Count / count)]])];
    }
}
